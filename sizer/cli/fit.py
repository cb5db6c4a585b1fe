"""The commands `fit`, `build` and `plans`: a base fitted to one paddler, its shop package, its plan
set with the kit.
"""

from dataclasses import replace

from sizer.cli.answered import put_answer
from sizer.cli.folder import out_file, out_folder, write_folder, write_new
from sizer.cli.inputs import DESIGN, EXAMPLE_REQUEST, REQUEST
from sizer.cli.options import STAMP, Command, Option, needed, one_of, stamp_of, switch
from sizer.cli.shop_options import SHOP_OPTIONS, money_of, shop_of
from sizer.design.library import read_base, shipped_names
from sizer.export.answer import full_answer, imprint_answer
from sizer.export.numbers import named
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.fit.study import study
from sizer.hull.lines import fair_lines
from sizer.remedies import remedies

OUT = needed("--out", "a new or empty folder; it is written whole or not at all", out_folder,
             metavar="DIR")
FORCE = switch("--force", "replace an older package there, once the new one is complete")


def fit(given):
    """Prints the answer to a request; returns 1 where a check fails.

    Where it does not pass, what mends it follows, each remedy tried on the shipped bases too.
    """
    job = given.request.job().stamped(stamp_of(given))
    answer = full_answer(job, study(job.fitted.assessed, job.mishaps.rigid))
    if job.fitted.status != "pass":
        others = {name: fair_lines(read_base(name)) for name in shipped_names()
                  if name != given.request.base}
        answer["remedies"] = [
            {"do": one.words, **named(one, "status", "left", "sentence", "sizes_mm",
                                   "freeboard_m")}
            for one in remedies(job.request, job.lines, job.fitted, others)]
    put_answer(answer)
    return 1 if job.fitted.status == "fail" else 0


def build(given):
    """Writes the shop package of a request; returns 1 where something of it fails."""
    from sizer.export.package import parts  # the writers of DXF and PDF load where they are wanted

    return _written(given, given.request, parts)


def plans(given):
    """Writes the plan set and the kit of a request, or of a base as drawn; returns as `build`."""
    from sizer.export.package import plan_set

    return _written(given, given.design, plan_set)


def _written(given, asked, files_of):
    """Writes what `files_of` makes of a Given's Job and its Bench, and tells how they stand."""
    from sizer.shop.bench import bench_of

    shop = shop_of(given)
    job = asked.job(shop)
    bench = bench_of(job, shop)
    job = job.stamped(stamp_of(given), bench)
    files = dict(files_of(job, bench))
    write_folder(files, given.out)
    put_answer({"job": imprint_answer(job.imprint), "out": str(given.out),
                "files": list(files), "status": job.status,
                "fit_status": job.fitted.status, "pattern_status": bench.pattern_status,
                "fairness_status": bench.fairness_status, "cautions": list(job.cautions)})
    return 1 if job.status == "fail" else 0


def quote(given):
    """Writes a quote and prints hours and cost behind it; returns 1 where the boat fails."""
    from sizer.export.quote import cost_answer, quote_pdf
    from sizer.shop.bench import bench_of
    from sizer.shop.cost import cost_of

    shop, money = shop_of(given), money_of(given)
    job = given.request.job(shop)
    bench = bench_of(job, shop)
    job, cost = job.stamped(stamp_of(given), bench), cost_of(bench, money)
    write_new(given.out, quote_pdf(job, bench, cost, money, given.paper))
    put_answer({"job": imprint_answer(job.imprint), "out": given.out, "status": job.status,
                "cost": cost_answer(cost, money), "cautions": list(job.cautions)})
    return 1 if job.status == "fail" else 0


COMMANDS = (
    Command("fit", fit, "fit a base design to a paddler",
            f"echo '{EXAMPLE_REQUEST}' | %(prog)s -", (REQUEST, *STAMP)),
    Command("build", build, "write the whole shop package into a folder",
            "%(prog)s request.json --out package", (
                REQUEST, *STAMP, OUT, FORCE, *SHOP_OPTIONS)),
    Command("plans", plans, "write a plan set and its kit into a folder: what a stranger builds "
            "the boat from", "%(prog)s request.json --out plans", (
                replace(DESIGN, words="a request .json (or -) for its fitted boat; a base design "
                        "is built as it was drawn", more={"metavar": "DESIGN|REQUEST.json"}),
                *STAMP, OUT, FORCE, *SHOP_OPTIONS)),
    Command("quote", quote, "write a quote for the customer, one page and the cautions; the "
            "answer tells the shop the hours and the cost behind it",
            "%(prog)s request.json --shop shop.toml --out quote.pdf", (
                REQUEST, *STAMP, needed("--out", "a new PDF file", out_file, metavar="FILE"),
                Option("--paper", f"{' or '.join(PAPERS_MM)} (default: {USUAL_PAPER})",
                       one_of(PAPERS_MM, " or ".join(PAPERS_MM)), {"default": USUAL_PAPER}),
                *SHOP_OPTIONS)),
)
