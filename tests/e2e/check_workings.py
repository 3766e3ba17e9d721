#!/usr/bin/env python3
"""check_workings.py BINARY ENQUIRY…: an outsider's look at every working of `BINARY prove ENQUIRY --json`, and of `compare` where
the enquiry has a drive in service. A file that ends on .json is a request to `BINARY api`; the word `golden` stands for
everything that tests/golden asks as JSON.
Evaluates each step's `expression` (grammar: engine/base/formula/print.h) with the SI numbers of its own inputs and compares with its value. Needs only Python 3.
Prints counts by kind, the share that can be checked, and what is wrong; ends with 1 when anything is, a step of no kind of its
own among them, or when the golden cases come to too few steps."""
import json, math, re, subprocess, sys
from pathlib import Path
TOKEN = re.compile(r"\s*(?:(?P<number>\d+\.?\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?)|(?P<name>[^\W\d][\w]*['*]?)|(?P<op><=|>=|[-+*/^(),<>]))")
# What all golden cases together must come to; an enquiry alone need not.
LEAST, SHARE = 1500, 0.9
class Wrong(Exception): pass
def tokens(text):
    out = []; i = 0; text = text.rstrip()
    while i < len(text):
        m = TOKEN.match(text, i)
        if not m or m.end() == i: raise Wrong(f"cannot read '{text[i:i+12]}'")
        kind, word = m.lastgroup, m.group(m.lastgroup); i = m.end()
        if kind == "name" and word[-1] == "*" and not symbol_ends(text, i): word = word[:-1]; i -= 1  # `E* / 2` has a symbol E*, `F*E` a product
        out.append((kind, word))
    return out
def symbol_ends(text, i): return i >= len(text) or text[i] in " ),"
def each(f, *a):
    n = {len(x) for x in a if isinstance(x, list)}
    if len(n) > 1: raise Wrong(f"lists of different length {sorted(n)}")
    if not n: return f(*a)
    return [f(*(x[k] if isinstance(x, list) else x for x in a)) for k in range(n.pop())]
ONE = {n: getattr(math, p) for n, p in dict(sqrt="sqrt", exp="exp", ln="log", lg="log10", sin="sin", cos="cos", tan="tan", asin="asin", acos="acos", atan="atan", sinh="sinh", cosh="cosh", tanh="tanh", floor="floor", ceil="ceil", gammaln="lgamma").items()}
ONE["abs"] = abs; ONE["round"] = lambda x: math.floor(x + 0.5)
def call(name, a):
    if name in ONE and len(a) == 1: return each(ONE[name], a[0])
    if name == "atan2" and len(a) == 2: return each(math.atan2, *a)
    if name == "lerp" and len(a) == 3: return each(lambda p, q, t: p + (q - p) * t, *a)
    if name in ("min", "max", "sum", "mean"):
        v = a[0] if len(a) == 1 and isinstance(a[0], list) else a
        if any(isinstance(x, list) for x in v): raise Wrong(f"{name} of several lists")
        return {"min": min, "max": max, "sum": math.fsum, "mean": lambda x: math.fsum(x) / len(x)}[name](v)
    raise Wrong(f"no function {name} of {len(a)}")
class Reader:
    """Precedence: comparison < sum < product < sign < power (right to left). `if` reads both branches and evaluates one."""
    def __init__(self, text, values): self.t = tokens(text); self.i = 0; self.v = values; self.live = True
    def at(self, *ops): return self.i < len(self.t) and self.t[self.i][0] == "op" and self.t[self.i][1] in ops
    def take(self, *ops):
        if not self.at(*ops): raise Wrong(f"{ops[0]} expected")
        self.i += 1; return self.t[self.i - 1][1]
    def do(self, f, *a): return each(f, *a) if self.live else 1.0
    def value(self):
        v = self.compare()
        if self.i != len(self.t): raise Wrong(f"'{self.t[self.i][1]}' is left over")
        return v
    def compare(self):
        a = self.sum()
        if self.at("<", "<=", ">", ">="):
            o = self.take("<", "<=", ">", ">="); b = self.sum()
            return self.do({"<": lambda x, y: x < y, "<=": lambda x, y: x <= y, ">": lambda x, y: x > y, ">=": lambda x, y: x >= y}[o], a, b)
        return a
    def sum(self):
        a = self.product()
        while self.at("+", "-"):
            o = self.take("+", "-"); b = self.product(); a = self.do((lambda x, y: x + y) if o == "+" else (lambda x, y: x - y), a, b)
        return a
    def product(self):
        a = self.sign()
        while self.at("*", "/"):
            o = self.take("*", "/"); b = self.sign(); a = self.do((lambda x, y: x * y) if o == "*" else (lambda x, y: x / y), a, b)
        return a
    def sign(self):
        if self.at("-"): self.take("-"); return self.do(lambda x: -x, self.sign())
        return self.power()
    def power(self):
        a = self.atom()
        if self.at("^"): self.take("^"); b = self.sign(); return self.do(lambda x, y: x ** y, a, b)
        return a
    def atom(self):
        if self.at("("): self.take("("); v = self.compare(); self.take(")"); return v
        if self.i >= len(self.t): raise Wrong("ends too early")
        kind, word = self.t[self.i]; self.i += 1
        if kind == "number": return float(word)
        if kind != "name": raise Wrong(f"'{word}' is out of place")
        if self.at("(") and word not in self.v:
            self.take("(")
            if word == "if":
                c = self.compare(); self.take(","); live = self.live
                self.live = live and bool(c); a = self.compare(); self.take(","); self.live = live and not c; b = self.compare(); self.live = live; self.take(")")
                return a if c else b
            a = [self.compare()]
            while self.at(","): self.take(","); a.append(self.compare())
            self.take(")"); return call(word, a) if self.live else 1.0
        if word in self.v: return self.v[word]
        if word == "pi": return math.pi
        raise Wrong(f"no value for {word}")
def evaluate(expression, inputs): return Reader(expression, {i["symbol"]: i["value"]["value"] for i in inputs}).value()
def check(step):
    """None when the step is what it says, else a sentence."""
    kind = step.get("kind")
    try:
        if kind == "computed":
            v, w = evaluate(step["expression"], step["inputs"]), step["value"]["value"]
            if isinstance(v, bool) or isinstance(v, list) or not math.isclose(v, w, rel_tol=1e-9, abs_tol=1e-300): return f"{v!r} computed, {w!r} printed"
        elif kind == "solved":
            r = evaluate(step["residual"], step["inputs"])
            if isinstance(r, list) or not abs(r) <= step["tolerance"]: return f"residual {r!r} above {step['tolerance']!r}"
        elif kind not in ("looked_up", "followed_in_time"): return f"kind {kind!r}"
        elif not step.get("source"): return "no source"
    except Wrong as e: return str(e)
    except (KeyError, TypeError, ValueError, ZeroDivisionError, OverflowError) as e: return f"{type(e).__name__} {e}"
    return None
def steps_of(answer, place=""):
    """Every step in an answer, with where it stands."""
    if isinstance(answer, dict):
        if {"symbol", "meaning", "kind", "inputs"} <= set(answer): yield place, answer
        else:
            place = f"{place}/{answer['id']}" if isinstance(answer.get("id"), str) else place
            for key, inner in answer.items(): yield from steps_of(inner, place if key == "findings" else f"{place}/{key}")
    elif isinstance(answer, list):
        for inner in answer: yield from steps_of(inner, place)
def commands(arguments):
    """What to ask: [arguments, standard input]."""
    for a in arguments:
        if a == "golden":
            sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "golden"))
            import golden
            yield from ((c, "") for c in golden.cases().values() if "--json" in c)
        elif a.endswith(".json"): yield ["api"], Path(a).read_text(encoding="utf-8")
        else:
            yield ["prove", a, "--json"], ""
            if "\nincumbent:" in Path(a).read_text(encoding="utf-8"): yield ["compare", a, "--json"], ""
def main(binary, arguments):
    count, bad = {}, []
    binary = str(Path(binary).resolve())
    for command, request in commands([a if a == "golden" else str(Path(a).resolve()) for a in arguments]):
        answer = subprocess.run([binary, *command], input=request, capture_output=True, text=True, timeout=60, cwd=Path(__file__).resolve().parents[2])
        if answer.returncode not in (0, 5):
            bad.append(f"{' '.join(command)} {request}: ended with {answer.returncode}")
            continue
        n = 0
        for place, s in steps_of(json.loads(answer.stdout)):
            n += 1
            count[s["kind"]] = count.get(s["kind"], 0) + 1
            e = check(s)
            if e: bad.append(f"{command[1] if len(command) > 1 else request.strip()} {place} {s['symbol']}: {e}")
        if n == 0 and command[0] not in ("compare", "log"): bad.append(f"{' '.join(command)}: no working")
    n = sum(count.values())
    checkable = count.get("computed", 0) + count.get("solved", 0)
    print(f"{n} steps {count}, {checkable / max(n, 1):.0%} can be checked, {len(bad)} wrong")
    for b in bad[:20]: print(" ", b)
    if "golden" in arguments and (n < LEAST or checkable <= SHARE * n):
        print(f"  at least {LEAST} steps are asked for, more than {SHARE:.0%} of them computed or solved")
        return 1
    return 1 if bad or n == 0 else 0
if __name__ == "__main__":
    if len(sys.argv) < 3: sys.exit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2:]))
