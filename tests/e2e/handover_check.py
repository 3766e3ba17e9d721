#!/usr/bin/env python3
"""Reads a hand-over back with readers that share no code with what wrote it.

    handover_check.py hostile SOURCE FOLDER   writes an enquiry, and from FOLDER/range.txt a range, full of hostile text
    handover_check.py check A B               checks a hand-over, and that B (made again without PDF) is the same
    handover_check.py beside FOLDER           checks that comparison and case are in proposal and workbook
    handover_check.py none FOLDER             checks that nothing is offered where nothing serves
    handover_check.py step PROGRAM FOLDER     checks the solids against the drawing
    handover_check.py letter FOLDER           checks the drawing and models of a hand-over in inches on Letter
"""
import collections
import html.parser
import json
import math
import pathlib
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree
import zipfile

import ezdxf

TITLE = "<script>alert(1)</script></title></style><b onclick=alert(2)>\"'&amp; %%u \\P {\\fx;} ]]> é≤"
CUSTOMER = "=HYPERLINK(\"http://example.invalid\";\"x\")"
NOTE = "--><img src=x onerror=alert(3)><svg onload=alert(4)> @import url(//example.invalid)"
FRAME = "\"><svg/onload=alert(5)>'); DROP"
CURRENCY = "<i onclick=alert(6)>"
MARK = "alert("


def require(condition, what):
    if not condition:
        sys.exit(f"handover_check: {what}")


def write_hostile(source, folder):
    lines = (source / "examples/metering_conveyor.yaml").read_text(encoding="utf-8").splitlines()
    lines = [line for line in lines if not line.startswith(("title:", "customer:", "note:"))]
    lines += [f"{key}: {json.dumps(text)}" for key, text in (("title", TITLE), ("customer", CUSTOMER), ("note", NOTE))]
    incumbent = {"kind": "worm", "ratio": "30", "rated_power": "4 kW", "running_time": "20000 h", "trouble": TITLE,
                 "troubles": [{"what": "overheating", "note": NOTE}]}
    economics = {"currency": CURRENCY, "exchange_rate": "1", "years": "8", "energy_price": "0.2 /kWh", "candidate_price": "2000",
                 "replacement_price": "900 … 1100", "stop_cost": "100 /h", "candidate_delivery": "4 week"}
    lines += [f"{key}: {json.dumps(value)}" for key, value in (("incumbent", incumbent), ("economics", economics))]
    (folder / "enquiry.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    range_ = json.loads((folder / "range.txt").read_text(encoding="utf-8"))
    range_.update(name=FRAME, version=NOTE, note=TITLE, currency=CUSTOMER)
    for frame in range_["frames"]:
        frame["name"] = FRAME + frame["name"]
    for pair in range_["two_stage"]:
        pair["frame"], pair["first_frame"] = FRAME + pair["frame"], FRAME + pair["first_frame"]
    (folder / "range.json").write_text(json.dumps(range_), encoding="utf-8")


class Page(html.parser.HTMLParser):
    """Collects text and everything that could act."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.text, self.bad = "", []

    def handle_starttag(self, tag, attributes):
        if tag in {"script", "iframe", "object", "embed", "img", "link", "base", "form", "foreignobject", "image", "use"}:
            self.bad.append(tag)
        for name, value in attributes:
            if name.startswith("on") or (name in {"href", "src", "xlink:href", "action"} and not (value or "").startswith("#")):
                self.bad.append(f"{tag} {name}={value}")

    def handle_data(self, data):
        self.text += data


def check_html(file):
    page = Page()
    page.feed(file.read_text(encoding="utf-8"))
    require(not page.bad, f"{file.name}: {page.bad}")
    require("alert(1)" in page.text, f"{file.name}: the title is not there as text")
    style = re.search(r"<style>(.*?)</style>", file.read_text(encoding="utf-8"), re.S).group(1)
    require(MARK not in style and "http" not in style, f"{file.name}: text of others in the style sheet")


def check_svg(file):
    root = xml.etree.ElementTree.parse(file).getroot()
    for element in root.iter():
        tag = element.tag.split("}")[1]
        require(tag in {"svg", "title", "polyline", "polygon", "circle", "text"}, f"{file.name}: element {tag}")
        require(not any(name.startswith("on") or "href" in name for name in element.attrib), f"{file.name}: {element.attrib}")


def run(*words):
    return subprocess.run(words, check=True, capture_output=True, text=True).stdout


def check_pdf(file, pages, size):
    info = dict(line.split(":", 1) for line in run("pdfinfo", str(file)).splitlines() if ":" in line)
    require(info["JavaScript"].strip() == "no" and info["Tagged"].strip() == "yes", f"{file.name}: {info}")
    require(size in info["Page size"], f"{file.name}: {info['Page size']}, not {size}")
    require(int(info["Pages"]) >= pages, f"{file.name}: {info['Pages']} pages")
    structure = run("pdfinfo", "-struct", str(file))
    for tag in ("H1", "H2", "Table", "TH", "TD") if pages > 1 else ():
        require(re.search(rf"^\s*{tag}\b", structure, re.M), f"{file.name}: nothing is tagged {tag}")
    require(b"/URI" not in file.read_bytes() and b"/Launch" not in file.read_bytes(), f"{file.name}: links out")


def check_bookmarks(file, page):
    """Every heading of the page is a bookmark; this browser writes them in plain text or UTF-16."""
    content = file.read_bytes()
    for heading in re.findall(r"<h2[^>]*>([^<]+)</h2>", page.read_text(encoding="utf-8")):
        require(b"/Title (" + heading.encode() + b")" in content, f"{file.name}: no bookmark '{heading}'")


def check_contents(file):
    """The page numbers of the contents are where the headings are."""
    first = run("pdftotext", "-f", "1", "-l", "2", "-raw", str(file), "-")
    for heading in ("Cautions", "Next steps", "Price and validity", "Appendix B: every candidate"):
        match = re.search(re.escape(heading) + r"\s*(\d+)", first)
        require(match, f"{file.name}: no page number for {heading}")
        page = match.group(1)
        require(re.search(r"^" + re.escape(heading) + r"\s*$", run("pdftotext", "-f", page, "-l", page, "-raw", str(file), "-"), re.M),
                f"{file.name}: {heading} is not on page {page}")


def check_dxf(file, hostile):
    document = ezdxf.readfile(file)
    audit = document.audit()
    require(not audit.errors and not audit.fixes, f"{file.name}: {audit.errors} {audit.fixes}")
    names = {layer.dxf.name for layer in document.layers}
    require({"OUTLINE", "DIMENSION", "CENTRE", "TEXT"} <= names, f"{file.name}: layers {names}")
    space = document.modelspace()
    dimensions = space.query("DIMENSION")
    require(len(dimensions) >= 10, f"{file.name}: {len(dimensions)} dimensions")
    for dimension in dimensions:
        number = re.search(r"[0-9.]+", re.sub(r"\\U\+[0-9A-F]{4}|%%c", "", dimension.dxf.text)).group()
        require(abs(float(number) - dimension.get_measurement()) < 0.06, f"{file.name}: {dimension.dxf.text} measures {dimension.get_measurement()}")
        require(dimension.dxf.geometry in document.blocks, f"{file.name}: a dimension without its block")
    texts = [text.dxf.text for text in space.query("TEXT")]
    require(not hostile or any("alert(1)" in text for text in texts), f"{file.name}: no title")
    require(not any("%%u" in text for text in texts), f"{file.name}: a control code survived")
    require(file.read_bytes().isascii(), f"{file.name}: not ASCII")


def check_step(file):
    text = file.read_text(encoding="ascii")
    require(text.startswith("ISO-10303-21;") and text.rstrip().endswith("END-ISO-10303-21;"), f"{file.name}: not STEP")
    defined = set(re.findall(r"^#(\d+)\s*=", text, re.M))
    used = set(re.findall(r"#(\d+)", text))
    require(used <= defined, f"{file.name}: {len(used - defined)} references lead nowhere")
    solids = len(re.findall(r"MANIFOLD_SOLID_BREP", text))
    require(solids == 2, f"{file.name}: {solids} solids, not reducer and motor")
    require(text.count("CYLINDRICAL_SURFACE(") >= 6, f"{file.name}: holes or shaft are missing")
    require("<" not in text and '"' not in text and "DROP" in text, f"{file.name}: names were not made plain")


def offered_dimensions(program):
    """Of the build that is offered on the demo enquiry, of which the hand-over was made; mm."""
    example = pathlib.Path(__file__).resolve().parents[2] / "examples/inclined_cullet_conveyor.yaml"
    build = json.loads(run(str(program), "prove", str(example), "--json"))["build"]
    request = json.dumps({"call": "dimensions", "input": {"build": build}})
    answer = subprocess.run([str(program), "api"], input=request, check=True, capture_output=True, text=True).stdout
    sizes = json.loads(answer)
    of_shaft, of_unit = sizes["shaft"], sizes["unit"]
    return [round(1000 * size) for size in (of_shaft["length"], sizes["length"], of_unit["width"], of_unit["height"])]


def check_step_solids(program, file, drawing):
    """Read by Open CASCADE: the solids are as large as the drawing says."""
    solids = json.loads(run(str(program.parent / "lobewise_step"), "--read", str(file)))
    require(len(solids) == 2 and all(s["valid"] for s in solids), f"{file.name}: {solids}")
    unit = min(solids, key=lambda s: s["low"])  # the shaft end points to where x begins; the motor comes behind
    sides = sorted(b - a for a, b in zip(unit["low"], unit["high"]))
    texts = [d.dxf.text for d in ezdxf.readfile(drawing).modelspace().query("DIMENSION")]
    shaft, body, width, height = offered_dimensions(program)
    for measure in (shaft, body, width, height):
        require(str(measure) in texts, f"{drawing.name}: no dimension {measure} in {texts}")
    expected = sorted((shaft + body, width, height))
    require(all(abs(a - b) < 0.51 for a, b in zip(sides, expected)), f"{file.name}: box {sides}, drawing {expected}")
    full = sides[0] * sides[1] * sides[2]
    require(0.2 * full < unit["volume"] < 0.8 * full, f"{file.name}: volume {unit['volume']} in a box of {full}")


def step(program, folder):
    if (folder / "outline.step").exists():
        check_step_solids(program, folder / "outline.step", folder / "drawing.dxf")


def loops_of(part, height):
    """Outlines of the flat faces of a part at a height, the largest first: each a list of points."""
    points, triangles = part
    edges = {}
    for triangle in triangles:
        if all(abs(points[k][2] - height) < 1e-4 for k in triangle):
            for k in range(3):
                edges[triangle[k], triangle[(k + 1) % 3]] = True
    following = {a: b for a, b in edges if (b, a) not in edges}
    loops = []
    while following:
        loop, at = [], next(iter(following))
        while at in following:
            loop.append(points[at][:2])
            at = following.pop(at)
        loops.append(loop)
    return sorted(loops, key=lambda loop: -abs(area_of(loop)))


def area_of(loop):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(loop, loop[1:] + loop[:1])) / 2


def centre_of(loop):
    return sum(p[0] for p in loop) / len(loop), sum(p[1] for p in loop) / len(loop)


def gap_between(point, loop):
    """Distance of a point inside a loop from it; negative outside."""
    least, inside = 1e9, False
    for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1]):
        dx, dy = bx - ax, by - ay
        t = min(1, max(0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / (dx * dx + dy * dy)))
        least = min(least, math.hypot(point[0] - ax - t * dx, point[1] - ay - t * dy))
        if (ay > point[1]) != (by > point[1]) and point[0] < ax + (point[1] - ay) / dy * dx:
            inside = not inside
    return least if inside else -least


def check_clearance(file, parts, wanted):
    """Put together as the eccentric holds it, the first disc clears the rollers by the gap asked for, at any angle."""
    ring, disc, eccentric = parts["Ring with rollers"], parts.get("Disc 1", parts.get("Disc")), parts["Eccentric"]
    rollers = loops_of(ring, max(p[2] for p in ring[0]))[-1]
    outline, *openings = loops_of(disc, 0)
    heights = sorted({p[2] for p in eccentric[0]})
    cam, pivot = next(loops for loops in (loops_of(eccentric, z) for z in heights[1:]) if len(loops) == 2)
    middle, own, hole = centre_of(rollers), centre_of(max(openings, key=lambda o: abs(area_of(o)))), centre_of(cam)
    at = centre_of(pivot)
    e = math.hypot(hole[0] - at[0], hole[1] - at[1])
    require(e > 0.2, f"{file.name}: an eccentricity of {e} mm")
    lobes = sum(1 for a, b, c in zip(outline, outline[1:] + outline[:1], outline[2:] + outline[:2])
                if math.dist(b, own) > math.dist(a, own) and math.dist(b, own) >= math.dist(c, own))
    least, most = 1e9, 0
    for step in range(3):
        turned = 0.7 * step  # of the crank; the disc turns back by it over its lobes
        back = -turned / lobes
        gaps = []
        for x, y in outline[::3]:
            dx, dy = x - own[0], y - own[1]
            gaps.append(gap_between((middle[0] + e * math.cos(turned) + dx * math.cos(back) - dy * math.sin(back),
                                     middle[1] + e * math.sin(turned) + dx * math.sin(back) + dy * math.cos(back)), rollers))
        least, most = min(least, *gaps), max(most, min(gaps))
    require(0.6 * wanted < least and most < 1.5 * wanted, f"{file.name}: {least} to {most} mm between disc and rollers, {wanted} asked")


def check_3mf(file, clearance=None):
    with zipfile.ZipFile(file) as package:
        require(package.testzip() is None, f"{file.name}: broken package")
        root = xml.etree.ElementTree.fromstring(package.read("3D/3dmodel.model"))
    space = {"m": "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"}
    require(root.attrib["unit"] == "millimeter", f"{file.name}: unit")
    objects = root.findall("m:resources/m:object", space)
    require(len(objects) >= 5, f"{file.name}: {len(objects)} parts")
    require(len(root.findall("m:build/m:item", space)) == len(objects), f"{file.name}: parts not built")
    boxes, parts = [], {}
    for part in objects:
        points = [tuple(float(v.attrib[k]) for k in "xyz") for v in part.iterfind(".//m:vertex", space)]
        triangles = [tuple(int(t.attrib[k]) for k in ("v1", "v2", "v3")) for t in part.iterfind(".//m:triangle", space)]
        parts[part.attrib["name"]] = points, triangles
        edges = collections.Counter((t[k], t[(k + 1) % 3]) for t in triangles for k in range(3))
        name = f"{file.name}: {part.attrib['name']}"
        require(max(edges.values()) == 1 and all((b, a) in edges for a, b in edges), f"{name} is not watertight")
        require(len(set(points)) == len(points), f"{name} has the same corner twice")
        volume = sum(a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
                     for a, b, c in ((points[i], points[j], points[k]) for i, j, k in triangles)) / 6
        require(volume > 100, f"{name} has a volume of {volume} mm3")
        require(min(p[2] for p in points) == 0, f"{name} does not stand on the plate")
        boxes.append([f(p[axis] for p in points) for axis in (0, 1) for f in (min, max)])
    for i, a in enumerate(boxes):
        for b in boxes[:i]:
            require(a[0] >= b[1] or b[0] >= a[1] or a[2] >= b[3] or b[2] >= a[3], f"{file.name}: two parts overlap on the plate")
    if clearance:
        check_clearance(file, parts, clearance)


# What OpenFormula's small group has, and a few more.
FUNCTIONS = set(
    "SQRT EXP LN LOG10 SIN COS TAN ASIN ACOS ATAN ATAN2 SINH ABS INT GAMMALN MIN MAX SUMPRODUCT IF PI".split()
)


def check_formula(file, formula):
    """Names of its own cells, numbers and harmless functions: nothing that reaches out of the file or starts anything."""
    for words in re.findall(r'"([^"]*)"', formula):
        require(re.fullmatch(r"[a-z :]+", words) is not None, f"{file.name}: '{words}' in {formula}")
    bare = re.sub(r'"[^"]*"', "", formula)
    require(re.fullmatch(r"[\w.,+*/^()<>= -]*", bare, re.ASCII) is not None, f"{file.name}: {formula}")
    outside = set(re.findall(r"(\w+)\(", bare)) - FUNCTIONS
    require(not outside, f"{file.name}: {outside} in {formula}")


def check_xlsx(file, live=False):
    with zipfile.ZipFile(file) as package:
        require(package.testzip() is None, f"{file.name}: broken package")
        names = package.namelist()
        require(not any("external" in n.lower() or "vba" in n.lower() for n in names), f"{file.name}: {names}")
        numbers = 0
        for name in names:
            if not name.endswith((".xml", ".rels")):
                continue
            content = package.read(name)
            root = xml.etree.ElementTree.fromstring(content)
            for element in root.iter():
                tag = element.tag.split("}")[-1]
                require(tag not in {"hyperlink", "hyperlinks", "ddeLink"}, f"{file.name}: {tag} in {name}")
                if tag == "f":
                    require(live, f"{file.name}: a formula in {name}")
                    check_formula(file, element.text)
                numbers += tag == "c" and element.attrib.get("t") is None
            require(b'TargetMode="External"' not in content, f"{file.name}: a link out in {name}")
        strings = "".join(xml.etree.ElementTree.fromstring(package.read("xl/sharedStrings.xml")).itertext())
    require(numbers > 200, f"{file.name}: only {numbers} numbers")
    require("=HYPERLINK(" in strings, f"{file.name}: the customer is not there as text")


def check(a, b):
    for stem in ("proposal", "drawing", "order_sheet", "commissioning_sheet"):
        check_html(a / f"{stem}.html")
    page = Page()
    page.feed((a / "proposal.html").read_text(encoding="utf-8"))
    for number in range(1, 7):  # every hostile field got as far as the text
        require(f"alert({number})" in page.text, f"proposal.html: alert({number}) is not there as text")
    check_svg(a / "drawing.svg")
    if shutil.which("chromium"):
        for stem, pages in (("proposal", 10), ("drawing", 1), ("order_sheet", 1), ("commissioning_sheet", 2)):
            check_pdf(a / f"{stem}.pdf", pages, "A4")
        check_contents(a / "proposal.pdf")
        check_bookmarks(a / "proposal.pdf", a / "proposal.html")
        text = run("pdftotext", str(a / "proposal.pdf"), "-")
        require("alert(1)" in text, "proposal.pdf: the title is not there as text")
    check_dxf(a / "drawing.dxf", True)
    check_xlsx(a / "findings.xlsx")
    check_xlsx(a / "workings.xlsx", live=True)
    for file in a.glob("model*.3mf"):
        check_3mf(file, clearance=0.2)
    require(list(a.glob("model*.3mf")), "no model")
    if (a / "outline.step").exists():
        check_step(a / "outline.step")
    else:
        print("no lobewise_step here: STEP files are not tested (tools/install.sh step)")
    for file in b.iterdir():
        if file.stem != "proposal":  # its contents have page numbers only where there is a browser
            require(file.read_bytes() == (a / file.name).read_bytes(), f"{file.name} differs when made again")


def beside(folder):
    file = folder / "proposal.html"
    page = Page()
    page.feed(file.read_text(encoding="utf-8"))
    require(not page.bad, f"{file.name}: {page.bad}")
    for words in ("Beside what is there now", "What it costs and saves over the years", "The unit in service, as modelled"):
        require(page.text.count(words) >= 1, f"{file.name}: '{words}' is missing")
    with zipfile.ZipFile(folder / "findings.xlsx") as package:
        sheets = re.findall(r'<sheet name="(\w+)"', package.read("xl/workbook.xml").decode())
    require({"Summary", "Findings", "Working", "Beside", "Case"} <= set(sheets), f"findings.xlsx: sheets {sheets}")


def none(folder):
    page = Page()
    page.feed((folder / "proposal.html").read_text(encoding="utf-8"))
    for words in ("Examination without an offer", "it is no offer", "What comes closest", "What does not hold:"):
        require(words in page.text, f"proposal.html: '{words}' is missing")
    for words in ("We offer", "Price and validity", "signature", "order sheet"):
        require(words not in page.text, f"proposal.html: '{words}' where nothing is offered")
    require("0.5/h" in page.text, "proposal.html: starts an hour are not those of a steady day")
    require("not offered" in (folder / "drawing.svg").read_text(encoding="utf-8"), "drawing.svg: passes for an offer")
    require(not list(folder.glob("order*")) and not list(folder.glob("commission*")), "a sheet for what is not offered")


def letter(folder):
    check_dxf(folder / "drawing.dxf", False)
    check_svg(folder / "drawing.svg")
    if shutil.which("chromium"):
        check_pdf(folder / "drawing.pdf", 1, "letter")
    for file in folder.glob("model*.3mf"):
        check_3mf(file)


def main(words):
    mode, *paths = words
    {"hostile": write_hostile, "check": check, "letter": letter, "beside": beside, "none": none, "step": step}[mode](*map(pathlib.Path, paths))


if __name__ == "__main__":
    main(sys.argv[1:])
