#!/usr/bin/env python3
"""Follows every link of a published guide, as a reader without a network would.

Usage: links.py GUIDE_DIR
"""

import re
import sys
from collections import Counter, deque
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

START = "index.html"
NEAR = ("mushrooms", "woods", "strains", "notes")
NEAR_LINKS = 3
RESOURCE_TAGS = {"link", "script", "img", "source", "iframe", "image", "object", "embed", "video", "audio", "track", "input"}
OUTWARD = {"http", "https", "mailto", "tel"}
ID_LISTS = ("for", "headers", "list", "aria-labelledby", "aria-describedby", "aria-controls", "aria-owns", "aria-details")
URL_IN_CSS = re.compile(r"url\(\s*(['\"]?)(.*?)\1\s*\)|@import\s+(['\"])(.*?)\3", re.IGNORECASE | re.DOTALL)


class Page(HTMLParser):
    """What a page offers to be linked to, and what it asks for."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.ids = Counter()
        self.links = []
        self.resources = []
        self.names = []
        self.has_base = False
        self.in_style = False
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        line = self.getpos()[0]
        self.in_style = tag == "style"
        self.has_base = self.has_base or tag == "base"
        for name, value in attrs:
            value = (value or "").strip()
            if name == "id":
                self.ids[value] += 1
            elif name in ID_LISTS:
                self.names += [(line, name, one) for one in value.split()]
            elif name in ("href", "xlink:href", "src", "data", "poster", "action", "formaction"):
                into = self.resources if tag in RESOURCE_TAGS else self.links
                into.append((line, value))
            elif name == "srcset":
                self.resources += [(line, part.split()[0]) for part in value.split(",") if part.strip()]
            elif "url(" in value.lower():
                self.resources += [(line, url) for url in urls_of(value)]

    def handle_endtag(self, tag):
        if tag == "style":
            self.in_style = False

    def handle_data(self, data):
        if self.in_style:
            line = self.getpos()[0]
            self.resources += [(line, url) for url in urls_of(data)]


def urls_of(css):
    return [(found[2] or found[4] or "").strip() for found in URL_IN_CSS.finditer(css)]


class Guide:
    def __init__(self, folder):
        self.folder = folder
        self.pages = {self.name(path): Page(path.read_text(encoding="utf-8")) for path in sorted(folder.rglob("*.html"))}
        self.passed = 0
        self.failed = 0

    def name(self, path):
        return path.relative_to(self.folder).as_posix()

    def check(self, holds, message):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(message)

    def target(self, origin, url):
        """The file inside the folder and the anchor that a relative address means, or what is wrong with it."""
        parts = urlsplit(url)
        if url.startswith(("/", "\\")):
            return None, None, "begins at the root of the disk"
        if not parts.path:
            return origin, unquote(parts.fragment), None
        path = (self.folder / origin).parent / unquote(parts.path)
        try:
            name = self.name(path.resolve())
        except ValueError:
            return None, None, "leaves the folder"
        if path.is_dir():
            return None, None, "leads to a folder, not to a file"
        if not path.is_file():
            return None, None, "leads to no file"
        return name, unquote(parts.fragment), None

    def follow(self, origin, line, url, resource):
        """Checks one address and returns the page to which it leads, if it leads to one."""
        place = f"{origin}:{line}: `{url}`"
        scheme = urlsplit(url).scheme
        if scheme:
            allowed = {"data"} if resource else OUTWARD
            self.check(scheme in allowed, f"{place} asks for something outside the guide")
            return None
        name, anchor, wrong = self.target(origin, url)
        self.check(wrong is None, f"{place} {wrong}")
        if wrong or name not in self.pages:
            return None
        if anchor:
            self.check(anchor in self.pages[name].ids, f"{place} names an anchor that {name} does not have")
        return name

    def run(self):
        self.check(START in self.pages, f"{START} is missing")
        ways = {}
        for name, page in self.pages.items():
            self.check(not page.has_base, f"{name}: a `base` element bends every relative link")
            for one, times in page.ids.items():
                self.check(times == 1 and one, f"{name}: the id `{one}` stands {times} times")
            for line, attribute, one in page.names:
                self.check(one in page.ids, f"{name}:{line}: {attribute} names the id `{one}`, which the page does not have")
            for line, url in page.resources:
                self.follow(name, line, url, resource=True)
                alone = name.startswith("handouts/")
                outside = not url.startswith(("#", "data:"))
                self.check(not (alone and outside), f"{name}:{line}: a handout must stand alone, and this one needs `{url}`")
            ways[name] = {self.follow(name, line, url, resource=False) for line, url in page.links} - {None}
        for path in sorted(self.folder.rglob("*.css")):
            for url in urls_of(path.read_text(encoding="utf-8")):
                self.follow(self.name(path), 1, url, resource=True)
        self.reach(ways)

    def reach(self, ways):
        distance = {START: 0}
        queue = deque([START])
        while queue:
            here = queue.popleft()
            for there in sorted(ways.get(here, ())):
                if there not in distance:
                    distance[there] = distance[here] + 1
                    queue.append(there)
        for name in self.pages:
            self.check(name in distance, f"{name} cannot be reached from {START}")
            if name.split("/")[0] in NEAR and name in distance:
                self.check(distance[name] <= NEAR_LINKS, f"{name} is {distance[name]} links away from {START}, more than {NEAR_LINKS}")


def main():
    if len(sys.argv) != 2 or not Path(sys.argv[1]).is_dir():
        sys.exit("Usage: links.py GUIDE_DIR")
    guide = Guide(Path(sys.argv[1]).resolve())
    guide.run()
    print(f"{guide.passed} passed, {guide.failed} failed")
    sys.exit(1 if guide.failed else 0)


if __name__ == "__main__":
    main()
