"""The small faults that tests/mutate.py makes: one token of a C file changed, as a slip of the hand would: + for -, * for /,
a comparison turned round (whole numbers: off by one), && for ||, a number changed, a sign or a not dropped, a statement dropped,
two arguments swapped.

Not made: strings, sizes of arrays, {0}, powers of ten beyond 1e-6..1e6 (guards and no-limits), steps of a for loop, what only
leaks (free), arguments that may be swapped (strcmp, fmax, calloc).
"""
import re
from pathlib import Path

KINDS = "operator compare logic number sign drop swap".split()
TOKEN = re.compile(r"""(?P<skip>//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'|^[ ]*\#(?:\\\n|[^\n])*)
  |(?P<num>0[xX][0-9a-fA-F]+[uUlL]*|(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?[uUlLfF]*)|(?P<word>[A-Za-z_]\w*)
  |(?P<op><<=|>>=|->|\+\+|--|<<|>>|<=|>=|==|!=|&&|\|\||[-+*/%&|^]=|[-+*/%<>=!&|^~?:;,.(){}\[\]])""", re.X | re.S | re.M)
OTHER = {"+": ("operator", "-"), "-": ("operator", "+"), "*": ("operator", "/"), "/": ("operator", "*"), "+=": ("operator", "-="),
         "-=": ("operator", "+="), "*=": ("operator", "/="), "/=": ("operator", "*="), "++": ("operator", "--"),
         "--": ("operator", "++"), "<": ("compare", ">="), "<=": ("compare", ">"), ">": ("compare", "<="), ">=": ("compare", "<"),
         "==": ("compare", "!="), "!=": ("compare", "=="), "&&": ("logic", "||"), "||": ("logic", "&&")}
BY_ONE = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
KEYWORDS = set("return goto case default if for while do switch static const typedef else sizeof struct enum free".split())
EVEN = set("strcmp strncmp memcmp fmin fmax hypot pw_hypot calloc".split())
WORD = re.compile(r"[A-Za-z_]\w*$")


class Mutant:
    """text[at:end] of the file becomes new."""

    def __init__(self, path, text, function, kind, at, end, new):
        self.path, self.text, self.function, self.kind = path, text, function or "", kind
        self.at, self.end, self.new = at, end, new
        self.line = text.count("\n", 0, at) + 1

    def mutated(self):
        return self.text[:self.at] + self.new + self.text[self.end:]

    def shown(self):
        """The lines touched, before and after, all white space one space."""
        a, b = self.text.rfind("\n", 0, self.at) + 1, self.text.find("\n", self.end)
        return [" ".join(t.split()) for t in (self.text[a:b], self.text[a:self.at] + self.new + self.text[self.end:b])]

    def key(self):
        """How tests/mutants_harmless.csv names it: no number of a line, which the next change moves."""
        return (self.path, self.function, *self.shown())


def other_number(word, rng):
    """One more or less of a whole number, a tenth more of another; None where none is made."""
    if word[:2] in ("0x", "0X"):
        return None
    digits = word.rstrip("uUlLfF")
    tail = word[len(digits):]
    if re.fullmatch(r"\d+", digits):
        n = int(digits)
        return str(n + 1 if n < 2 or rng.random() < 0.5 else n - 1) + tail
    x = float(digits)
    if re.match(r"1(\.0)?e", digits) and not 1e-6 < x < 1e6:
        return None
    return ("1.0" if x == 0.0 else repr(float("%.6g" % (1.1 * x)))) + tail


def statement_end(tokens, i):
    """Where the statement that begins with token i ends; None when it opens a block."""
    depth = 0
    for t in tokens[i:]:
        depth += (t.group() in "([{") - (t.group() in ")]}")
        if depth < 0:
            return None
        if t.group() == ";" and depth == 0:
            return t.end()
    return None


def arguments(tokens, i):
    """Where the arguments of the call whose bracket is token i begin and end."""
    depth, start, spans = 0, tokens[i].end(), []
    for t in tokens[i:]:
        w = t.group()
        depth += (w in "([{") - (w in ")]}")
        if w == ";":
            return []
        if depth == 0 or depth == 1 and w == ",":
            spans.append((start, t.start()))
            start = t.end()
        if depth == 0:
            return spans
    return []


def name_before(tokens, i):
    """The word before the brackets that end with token i: of a function whose body begins."""
    level = 0
    while i > 0:
        level += (tokens[i].group() == ")") - (tokens[i].group() == "(")
        if level == 0:
            break
        i -= 1
    return tokens[i - 1].group()


class Reader:
    """Walks the tokens of a file and keeps what stands around the one in hand."""

    def __init__(self, path, rng):
        self.path, self.rng, self.text = path, rng, Path(path).read_text(encoding="utf-8")
        self.tokens = [m for m in TOKEN.finditer(self.text) if not m.group("skip")]
        self.found, self.function, self.depth, self.openers = [], None, 0, []

    def put(self, kind, at, end, new):
        self.found.append(Mutant(self.path, self.text, self.function, kind, at, end, new))

    def word(self, i):
        return self.tokens[i].group() if 0 <= i < len(self.tokens) else ""

    def number(self, i, t):
        before, after = self.word(i - 1), self.word(i + 1)
        sized = before == "[" and WORD.match(self.word(i - 2)) and (WORD.match(self.word(i - 3)) or self.word(i - 3) == "*")
        if not sized and before != "case" and not (before == "{" and after == "}"):
            new = other_number(t.group(), self.rng)
            if new:
                self.put("number", t.start(), t.end(), new)

    def operator(self, i, t):
        w, a, b = t.group(), self.text[t.start() - 1], self.text[t.end()]
        step = w in ("++", "--")
        if w in OTHER and (a in " \n" and b in " \n" or step and self.openers[-1:] != ["for"]):
            self.put(OTHER[w][0], t.start(), t.end(), BY_ONE.get(w) if self.counts(i) and w in BY_ONE else OTHER[w][1])
        elif w == "-" and a in " (,[=-{" and b not in " \n" or w == "!":
            self.put("sign", t.start(), t.end(), "")

    def counts(self, i):
        """Whole numbers are compared: of others the limit itself is no fault."""
        return self.openers[-1:] == ["for"] or any(re.fullmatch(r"\d+u?", self.word(k)) for k in (i - 1, i + 1))

    def statement(self, i, t):
        end = statement_end(self.tokens, i)
        told = self.text[t.start():end] if end else ""
        if told and not re.match(r"\w+ \**\w", told) and self.word(i + 1) not in ("", ":", "{") and re.search(r"[=(]|\+\+|--|^(continue|break)", told):
            self.put("drop", t.start(), end, ";")

    def call(self, i):
        spans = arguments(self.tokens, i)
        for (a, b), (c, d) in zip(spans, spans[1:]):
            x, y = self.text[a:b].strip(), self.text[c:d].strip()
            if x != y and x and y and '"' not in (x[0], y[0]) and "err" not in (x, y):
                self.put("swap", a, d, y + ", " + x)

    def read(self):
        """All of them. Of a header only what stands in a function: its types are shared by objects that are not built anew."""
        control = False
        for i, t in enumerate(self.tokens):
            w, before, after_control, control = t.group(), self.word(i - 1), control, False
            if w == "{" and self.depth == 0 and before == ")":
                self.function = name_before(self.tokens, i - 1)
            if w == "(":
                self.openers.append(before)
            if w == ")" and self.openers:
                control = self.openers.pop() in ("if", "for", "while")
            self.depth += (w == "{") - (w == "}")
            if self.depth == 0 and w == "}":
                self.function, self.openers = None, []
            inside = self.function is not None and self.depth > 0
            if not inside and self.path.endswith(".h"):
                continue
            if t.group("num"):
                self.number(i, t)
            elif t.group("op"):
                self.operator(i, t)
            begins = before in (";", "{", "}", "else") or after_control
            if inside and begins and not self.openers and t.group("word") and w not in KEYWORDS:
                self.statement(i, t)
            if inside and w == "(" and WORD.match(before) and before not in KEYWORDS | EVEN:
                self.call(i)
        return self.found


def mutants_of(path, rng):
    return Reader(path, rng).read()
