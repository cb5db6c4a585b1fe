"""Twenty people at one wizard at once, without their browsers: what the server alone takes.

A browser on the same machine takes more of it than the wizard does; people have their own. So each
person here is a connection that says what a page would and reads what it would show. Run with
`SIZER_LOAD_MINUTES=10 .venv/bin/python -m pytest tests/web/bench_server.py -s`; prints how long a
slider took and what the server held, asserts no time.
"""

import asyncio
import random
import statistics
import time

from bench_load import (
    MINUTES,
    SESSIONS,
    THINKS_S,
    assert_settled,
    beside_a_wizard,
    said_of,
    shows_processes,
    watched,
)
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.proto.WidgetStates_pb2 import WidgetState
from websockets.asyncio.client import connect

READ = ("button", "text_input", "slider")  # others stay as the server has them
EARLY = ForwardMsg.FINISHED_EARLY_FOR_RERUN


class Page:
    """One person's page: the widgets on it with their values, and the words of its strip."""

    def __init__(self, line):
        self._line, self._script = line, ""
        self._widgets, self._states = {}, {}
        self.strip = ""

    async def told(self, change=None):
        """Tells the server of all widgets, one of them changed, and reads the page it draws."""
        back = BackMsg()
        run = back.rerun_script
        run.page_script_hash, run.page_name = self._script, "" if self._script else "paddler"
        run.widget_states.widgets.extend(
            [one for one in self._states.values() if change is None or one.id != change.id])
        if change is not None:
            run.widget_states.widgets.append(change)
            if change.WhichOneof("value") != "trigger_value":
                self._states[change.id] = change
        await self._line.send(back.SerializeToString())
        self._widgets = {}
        while True:
            message = ForwardMsg.FromString(await self._line.recv())
            kind = message.WhichOneof("type")
            if kind == "new_session":
                self._script = message.new_session.page_script_hash
            elif kind == "delta" and message.delta.WhichOneof("type") == "new_element":
                self._read(message.delta.new_element)
            elif kind == "script_finished" and message.script_finished != EARLY:
                break
        self._states = {key: one for key, one in self._states.items() if key in self._widgets}

    def _read(self, element):
        kind = element.WhichOneof("type")
        assert kind != "exception", element.exception
        one = getattr(element, kind)
        if kind == "markdown" and "sz-strip" in one.body:
            self.strip = one.body
        if kind not in READ:
            return
        self._widgets[one.id] = kind, one
        if kind == "button" or (one.id in self._states and not one.set_value):
            return
        state, value = WidgetState(id=one.id), one.value if one.set_value else one.default
        if kind == "text_input":
            state.string_value = value
        elif one.options:
            return  # a slider of words: left as the server has it
        else:
            state.double_array_value.data.extend(value)
        self._states[one.id] = state

    def named(self, kind, label):
        """The widget of a kind whose label, or key, begins so, or whose key ends so."""
        return next(one for found, one in self._widgets.values() if found == kind and (
            one.label.startswith(label) or one.id.endswith(label)))

    async def pressed(self, key):
        await self.told(WidgetState(id=self.named("button", key).id, trigger_value=True))

    async def typed(self, label, text):
        await self.told(WidgetState(id=self.named("text_input", label).id, string_value=text))

    def value(self, label):
        """What a field holds."""
        return self._states[self.named("text_input", label).id].string_value

    async def moved(self, label):
        """Moves a slider by a step; where it then stands."""
        slider = self.named("slider", label)
        at, = self._states[slider.id].double_array_value.data
        aim = at + slider.step if at < slider.max else at - slider.step
        state = WidgetState(id=slider.id)
        state.double_array_value.data.append(aim)
        await self.told(state)
        return aim


async def at_work(port, number, until, moves):
    """Types measures, then moves a slider and types another weight until the end."""
    chance, own = random.Random(number), f"{60 + number}"
    address = f"localhost:{port}"
    async with connect(f"ws://{address}/_stcore/stream", origin=f"http://{address}",
                       subprotocols=["streamlit"], max_size=None, ping_timeout=None) as line:
        page = Page(line)
        await page.told()
        for label, text in (("Weight", own), ("Height", f"{1650 + 8 * number}"),
                            ("Hip width", f"{370 + 3 * number}")):
            await page.typed(label, text)
        while time.monotonic() < until:
            await page.pressed("go_boat")
            for _ in range(4):
                await asyncio.sleep(chance.uniform(*THINKS_S))
                begun = time.perf_counter()
                aim = await page.moved("Beam")
                moves.append(time.perf_counter() - begun)
                assert f"{aim:.0f} mm" in page.strip, (aim, page.strip)
            await page.pressed("go_paddler")
            assert page.value("Weight") == own, "another's weight"
            own = f"{60.0 + number + chance.randint(0, 9) / 10.0:.1f}"
            await page.typed("Weight", own)


async def everybody(port, server):
    moves, held = [], []
    until = time.monotonic() + 60.0 * MINUTES
    *_, took_s = await asyncio.gather(
        *(at_work(port, number, until, moves) for number in range(SESSIONS)),
        watched(server.pid, until, held))
    said_of(moves, held, took_s)
    slow = statistics.quantiles(moves, n=10)[-1]
    print(f"one move in ten took longer than {slow:.2f} s; "
          f"the server had {took_s / (60.0 * MINUTES):.2f} of a processor")
    return held


@shows_processes
def test_twenty_people_elsewhere(tmp_path):
    assert_settled(beside_a_wizard(tmp_path, everybody))
