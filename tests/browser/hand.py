"""A hand at the bay: it reads the screen and does what the screen asks for, by its own buttons and fields."""

from __future__ import annotations

import re
import struct
import zlib
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


PNG = (
    b"\x89PNG\r\n\x1a\n"
    + _chunk(b"IHDR", struct.pack(">IIBBBBB", 8, 6, 8, 2, 0, 0, 0))
    + _chunk(b"IDAT", zlib.compress(b"".join(b"\0" + b"\x70\x80\x90" * 8 for _ in range(6))))
    + _chunk(b"IEND", b"")
)
"""A small grey picture."""
REASON = "seen in good light"

WALK = """async ({most, name, reason}) => {
  const said = [];
  const byId = (id) => document.getElementById(id);
  const pause = (ms = 0) => new Promise((done) => setTimeout(done, ms));
  const press = (id) => byId(id).click();
  const fill = (id, text) => {
    const field = byId(id);
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  };
  const picture = () => new Promise((done) => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [8, 6];
    canvas.getContext("2d").fillRect(0, 0, 8, 6);
    canvas.toBlob((blob) => done(new File([blob], "look.png", { type: "image/png" })), "image/png");
  });
  const until = async (label) => {
    for (let n = 0; n < 400 && byId("bay_next").textContent === label; n += 1) await pause(5);
  };
  for (let n = 0; n < most; n += 1) {
    const label = byId("bay_next").textContent;
    const title = byId("bay_do")?.textContent || "";
    if (title === "All steps are done") return { said, end: "done" };
    said.push(label);
    if (label.startsWith("Measure:")) {
      press("bay_next");
      const limits = byId("bay_limits").textContent.replace(/\\u2212/g, "-");
      const numbers = (limits.match(/-?[0-9]+([.][0-9]+)?/g) || ["1"]).map(Number);
      const value = limits.includes(" to ") ? (numbers[0] + numbers[1]) / 2 : numbers[0];
      const text = String(Number(value.toFixed(4)));
      const keys = [...document.querySelectorAll(".bay-key")];
      press("bay_key-clear");
      for (const letter of text.replace("-", "\\u2212")) keys.find((key) => key.textContent === letter).click();
      press("bay_enter");
    } else if (label === "Photograph first") {
      const transfer = new DataTransfer();
      transfer.items.add(await picture());
      byId("bay_photo").files = transfer.files;
      byId("bay_photo").dispatchEvent(new Event("change", { bubbles: true }));
      await until(label);
    } else if (label === "Release, next") {
      fill("bay_release-by", name);
      press("bay_next");
    } else if (label === "Out: measure or release") {
      return { said, end: "out" };
    } else if (label === "Answer the watch") {
      document.querySelector("#bay_timers .is-calling .bay-timer-press button").click();
      await until(label);
    } else if (label.startsWith("Working out")) {
      await until(label);
    } else if (label.startsWith("Wait until")) {
      return { said, end: "wait" };
    } else if (label === "Where to?") {
      return { said, end: document.querySelector(".bay-not-yet")?.textContent || "held" };
    } else {
      press("bay_next");
    }
    await pause();
  }
  return { said, end: "most" };
}"""


@dataclass
class Hand:
    """Works at one page of the bay."""

    page: Page
    """Or a frame, which has all that is used of one here."""
    """A frame where the bay lies in one, as in the copy of the book in one file."""
    name: str
    home: str = ""
    """The address of the bay."""

    def says(self, id_: str) -> str:
        return self.page.locator(f"#{id_}").inner_text()

    @property
    def label(self) -> str:
        """What the large key does."""
        return self.says("bay_next")

    @property
    def step(self) -> str:
        return self.says("bay_do")

    @property
    def at(self) -> tuple[int, int]:
        """Which step of how many is shown."""
        found = re.match(r"(\d+) of (\d+)", self.says("bay_count"))
        assert found is not None
        return int(found[1]), int(found[2])

    def sign_in(self, name: str = "") -> None:
        """Say who works; a name that the job has is taken by its button."""
        self.name = name or self.name
        known = self.page.locator("#bay_who .bay-list").get_by_role("button", name=self.name, exact=True)
        if known.count():
            known.tap()
            return
        self.page.locator("#bay_name").fill(self.name)
        self.page.locator("#bay_who-take").tap()

    def type(self, value: float | str) -> None:
        """Type a number on the keys that stand open, and enter it."""
        self.page.locator("#bay_key-clear").tap()
        for letter in str(value).replace("-", "\u2212"):
            self.page.locator(".bay-key").get_by_text(letter, exact=True).tap()
        self.page.locator("#bay_enter").tap()

    def within(self) -> str:
        """A value that the limits in view admit."""
        limits = self.says("bay_limits").replace("\u2212", "-")
        numbers = [float(one) for one in re.findall(r"-?[0-9]+(?:[.][0-9]+)?", limits)] or [1.0]
        value = sum(numbers[:2]) / 2 if " to " in limits else numbers[0]
        return f"{value:.4f}".rstrip("0").rstrip(".")

    def next(self) -> None:
        self.page.locator("#bay_next").tap()

    def photograph(self) -> None:
        before = self.page.locator(".job-photo").count()
        self.page.locator("#bay_photo").set_input_files({"name": "look.png", "mimeType": "image/png", "buffer": PNG})
        self.page.locator(".job-photo").nth(before).wait_for()

    def wait(self) -> None:
        """Let two hours go by on the clock that the test holds."""
        whole = getattr(self.page, "page", self.page)
        whole.clock.fast_forward("02:00:00")
        self.page.evaluate("window.seambook.bayDesk.draw()")

    def release(self, name: str) -> None:
        self.page.locator("#bay_release-by").fill(name)
        self.next()

    def obey(self) -> str:
        """Do what the large key says, once; return what it said."""
        label = self.label
        if label.startswith("Measure:"):
            self.next()
            self.type(self.within())
        elif label == "Photograph first":
            self.photograph()
        elif label == "Release, next":
            self.release(self.name)
        elif label.startswith("Wait until"):
            self.wait()
        elif label == "Answer the watch":
            self.page.locator("#bay_timers .is-calling .bay-timer-press button").first.tap()
        else:
            self.next()
        return label

    def walk(self, most: int = 2000) -> dict[str, Any]:
        """Go on by the page's own buttons, pressed from inside it, as far as the screen lets go."""
        found: dict[str, Any] = self.page.evaluate(WALK, {"most": most, "name": self.name, "reason": REASON})
        return found
