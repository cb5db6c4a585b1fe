"""All sizes of a range as one zip: each size's whole shop package in a folder of its own."""

from sizer.crowd.finished import request_for
from sizer.crowd.pool import Stopped
from sizer.export.numbers import json_text
from sizer.export.package import parts, zip_bytes
from sizer.export.range_answer import size_request
from sizer.job import run
from sizer.shop.bench import bench_of

REQUEST = "request.json"


def size_job(found, size):
    """The Job of a Size for the paddler it is drawn for: the same boat, its dimensions held."""
    setting = found.setting
    return run(request_for(size.hull, size.drawn, setting.base, setting.use, setting.water,
                           setting.gear_kg), setting.lines)


def range_zip(found, choice, progress=lambda done, of, words: None, stop=lambda: False):
    """Bytes of the zip: a folder for each size, with the request that gives it again.

    Parameters
    ----------
    found : SizeRange
    choice : one of its choices
    progress : called as progress(done, of, words)
    stop : called often; true to give up

    Raises
    ------
    Stopped
    """
    files = {}
    for done, size in enumerate(choice.sizes):
        folder = size.name.replace(" ", "-")
        progress(done, len(choice.sizes), f"shop package of {size.name}")
        job = size_job(found, size)
        files[f"{folder}/{REQUEST}"] = json_text(size_request(found, size)).encode("utf-8")
        for name, data in parts(job, bench_of(job)):
            if stop():
                raise Stopped("stopped while packing; nothing was kept")
            files[f"{folder}/{name}"] = data
    return zip_bytes(files)
