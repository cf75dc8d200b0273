# SPDX-License-Identifier: MIT
"""The places of a source where a fault may be planted, read from clang's syntax tree."""
import json
import os
import re
import subprocess

# The sign that stands in a source, what it is called in switches.hpp, and what is put in its place.
BINARY = {"<": ("lt", "<="), "<=": ("le", "<"), ">": ("gt", ">="), ">=": ("ge", ">"), "==": ("eq", "!="),
          "!=": ("ne", "=="), "+": ("plus", "-"), "-": ("minus", "+"), "*": ("times", "/"), "/": ("over", "*")}
LOGICAL = {"&&": "||", "||": "&&"}
EXTREME = {"std::min": ("least", "std::max"), "std::max": ("greatest", "std::min")}
FIXED = {"StaticAssertDecl", "EnumConstantDecl", "TemplateArgument", "ConstantExpr", "CXXDefaultArgExpr", "RequiresExpr",
         "CXXDefaultInitExpr", "ConceptSpecializationExpr"}
STATEMENTS = {"CallExpr", "CXXMemberCallExpr", "CXXOperatorCallExpr", "CompoundAssignOperator", "ExprWithCleanups",
              "UnaryOperator", "BinaryOperator"}
CONDITIONAL = {"IfStmt", "WhileStmt", "ConditionalOperator", "ForStmt", "DoStmt"}
NUMBER = re.compile(r"(?!0[xX])[0-9.][0-9a-fA-F.'eE+-]*[uUlLfF]*")


class Places:
    """`found` holds the faults: (begin, end, kind) -> what; `constants`: where a constexpr stands -> (its end, what may stand
    there instead, the declaration)."""

    def __init__(self, source, command):
        self.source = source
        with open(source, "rb") as file:
            self.text = file.read()
        self.is_here, self.found, self.constants = False, {}, {}
        dump = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False).stdout.decode()
        decoder, at = json.JSONDecoder(), 0
        while (start := dump.find("{", at)) >= 0:
            node, at = decoder.raw_decode(dump, start)
            self.walk(node, [], False)
        for begin, end, _ in [place for place, parts in self.found.items() if parts and parts[0] in ("==", "!=")]:
            self.found.pop((begin, end, "turned"), None)  # the same once more

    def place(self, location):
        """Where a location ends and begins; clang names a file only where it is another than before."""
        if "file" in location:
            path = location["file"]
            self.is_here = os.path.exists(path) and os.path.samefile(path, self.source)
        inner = [location[key] for key in ("spellingLoc", "expansionLoc") if key in location]
        for each in inner:
            self.place(each)
        if inner or "offset" not in location:
            return None  # in a macro, or nowhere
        return location["offset"], location["offset"] + location.get("tokLen", 0)

    def span(self, node):
        begin, end = (self.place(node.get("range", {}).get(side, {})) for side in ("begin", "end"))
        return (begin[0], end[1]) if begin and end else None

    def walk(self, node, above, fixed):
        if not isinstance(node, dict) or "kind" not in node:
            return
        self.place(node.get("loc", {}))
        span = self.span(node)
        fixed = fixed or node["kind"] in FIXED or is_written_by_the_compiler(node)
        if self.is_here and span and not fixed:
            self.note(node, above, span)
        inner = node.get("inner", [])
        for child in inner:  # what a compiler decides can't be switched
            self.walk(child, above + [node], fixed or (node.get("isConstexpr", False) and child is inner[0]))

    def note(self, node, above, span):
        kind = node["kind"]
        if node.get("constexpr"):
            self.note_constant(node, above, span)
        if kind in ("BinaryOperator", "CXXOperatorCallExpr"):
            self.note_binary(node, span)
        elif kind in ("IntegerLiteral", "FloatingLiteral") and NUMBER.fullmatch(self.words(span)):
            self.found[(*span, "figure")] = None
        elif kind == "CXXBoolLiteralExpr" and self.words(span) in ("true", "false"):
            self.found[(*span, "turned")] = None
        elif kind == "UnaryOperator" and node.get("opcode") == "-":
            self.found[(*span, "sign")] = None
        elif kind == "UnaryOperator" and re.match("![^=]", self.words(span)):
            self.found[(*span, "turned")] = None
        elif kind == "CallExpr":
            self.note_extreme(node, span)
        if kind in CONDITIONAL:
            self.note_condition(node)
        if kind == "ReturnStmt" and node.get("inner") and node["inner"][0].get("type", {}).get("qualType") == "bool":
            self.note_turned(node["inner"][0])
        # Room set aside beforehand is no result.
        if above and kind in STATEMENTS and is_statement(node, above[-1]) and ".reserve(" not in self.words(span):
            self.found[(*span, "left out")] = None

    def words(self, span):
        return self.text[span[0]:span[1]].decode(errors="replace")

    def note_constant(self, node, above, span):
        """A constexpr that may be a plain constant in the copy, so that its figures can be switched."""
        found = re.search(rb"\bconstexpr\b", self.text[span[0]:span[1]])
        if not found or span[0] + found.start() > node.get("loc", {}).get("offset", span[1]):
            return
        in_class = any(outer["kind"] == "CXXRecordDecl" for outer in above[-1:])
        instead = "const" if not in_class else "inline const"
        begin = span[0] + found.start()
        self.constants[begin] = (begin + len("constexpr"), instead if node["kind"] == "VarDecl" else "", span)

    def note_condition(self, node):
        inner = [child for child in node.get("inner", [])]
        if node.get("hasVar") or node.get("isConstexpr") or len(inner) < 2:
            return
        at = {"ForStmt": 2, "DoStmt": 1}.get(node["kind"], 1 if node.get("hasInit") else 0)
        if at < len(inner) and "kind" in inner[at]:
            self.note_turned(inner[at])

    def note_turned(self, condition):
        core = condition
        while core["kind"] in ("ImplicitCastExpr", "ParenExpr", "ExprWithCleanups") and core.get("inner"):
            core = core["inner"][0]
        opcode = core.get("opcode") or self.operator_between(core)
        span = self.span(condition)
        if self.is_here and span and condition["kind"] != "DeclStmt" and opcode not in ("==", "!=", "!", ",") and (
                core["kind"] != "CXXBoolLiteralExpr"):
            self.found[(*span, "turned")] = None

    def operator_between(self, node):
        parts = self.operands(node)
        return parts[0] if parts else None

    def operands(self, node):
        """The sign between two operands and where it stands."""
        inner = [child for child in node.get("inner", []) if isinstance(child, dict) and "kind" in child]
        if node["kind"] == "BinaryOperator" and len(inner) == 2:
            left, right = inner
        elif node["kind"] == "CXXOperatorCallExpr" and len(inner) == 3:
            left, right = inner[1], inner[2]
        else:
            return None
        own, first, second = self.span(node), self.span(left), self.span(right)
        if not own or not first or not second or first[0] != own[0] or not first[0] < first[1] <= second[0] < own[1]:
            return None
        return self.text[first[1]:second[0]].decode(errors="replace").strip(), first[1], second[0]

    def note_binary(self, node, span):
        parts = self.operands(node)
        if not parts:
            return
        is_text = any(word in node.get("type", {}).get("qualType", "") for word in ("string", "path", "*"))
        if is_text and parts[0] in "+-*/":
            return  # a text has no minus
        if parts[0] in BINARY:
            self.found[(*span, "binary")] = parts
        elif parts[0] in LOGICAL:
            self.found[(*span, "logical")] = parts
            self.found[(span[0], parts[1], "left part")] = parts[0]
            self.found[(parts[2], span[1], "right part")] = parts[0]

    def note_extreme(self, node, span):
        found = re.match(r"(std::(?:min|max))\(\s*(?!\{)", self.words(span))
        arguments = [child for child in node.get("inner", [])[1:] if child.get("kind") != "CXXDefaultArgExpr"]
        if found and len(arguments) == 2:
            self.found[(span[0], span[0] + len(found.group(1)) + 1, "extreme")] = (found.group(1), span)


def is_written_by_the_compiler(node):
    """A copy's or a move's members, one by one; clang places them at the name of their class."""
    methods = ("CXXMethodDecl", "CXXConstructorDecl", "CXXDestructorDecl", "CXXConversionDecl")
    return bool(node.get("explicitlyDefaulted") or node.get("isImplicit") and node["kind"] in methods)


def is_statement(node, parent):
    """Whether an expression stands for itself, so that it can be left out."""
    if node["kind"] == "UnaryOperator" and node.get("opcode") not in ("++", "--"):
        return False
    if node["kind"] == "BinaryOperator" and node.get("opcode") != "=":
        return False
    inner = [child for child in parent.get("inner", [])]
    if parent["kind"] in ("CompoundStmt", "CaseStmt", "DefaultStmt"):
        return True
    if parent["kind"] == "IfStmt":
        return any(child is node for child in inner[-2 if parent.get("hasElse") else -1:])
    return parent["kind"] in ("ForStmt", "CXXForRangeStmt", "WhileStmt", "DoStmt") and (
        inner[0 if parent["kind"] == "DoStmt" else -1] is node)
