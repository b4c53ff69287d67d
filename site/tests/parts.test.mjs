// The parts of the pages that need no browser.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, test } from "node:test";
import { Duplex } from "node:stream";
import { createDeflateRaw, createInflateRaw, deflateRawSync } from "node:zlib";
import { loaded, root, wasm } from "../bundle.mjs";

// Browsers have this format; Node has it only since version 20.
try {
  new CompressionStream("deflate-raw");
} catch {
  globalThis.CompressionStream = class { constructor() { return Duplex.toWeb(createDeflateRaw()); } };
  globalThis.DecompressionStream = class { constructor() { return Duplex.toWeb(createInflateRaw()); } };
}

const { at, changes, escaped, isInside } = await loaded("src/pointer.ts");
const { fragmentOf, planIn } = await loaded("src/share.ts");
const { Draft } = await loaded("src/draft.ts");
const { proseWith } = await loaded("make/lessons.ts");
const { markOf, scoreInWords } = await loaded("src/score.ts");
const { leftText } = await loaded("src/timers.ts");

describe("pointers", () => {
  const plan = { beer: { volume: "20 L" }, vessels: { "a/b~c": { kind: "jug" } }, steps: [{ do: "weigh" }] };
  test("lead to values, and nowhere else", () => {
    assert.equal(at(plan, "/beer/volume"), "20 L");
    assert.equal(at(plan, `/vessels/${escaped("a/b~c")}/kind`), "jug");
    assert.equal(at(plan, "/steps/0/do"), "weigh");
    for (const nowhere of ["/beer/volume/x", "/steps/1", "/steps/-1", "/steps/length", "/toString", "/beer/__proto__"])
      assert.equal(at(plan, nowhere), undefined, nowhere);
    assert.equal(at(plan, ""), plan);
  });
  test("changes make the objects around a value, replace it, and take it away", () => {
    assert.deepEqual(changes(plan, "/place/room", "20 °C"),
      [{ op: "add", path: "/place", value: {} }, { op: "add", path: "/place/room", value: "20 °C" }]);
    assert.deepEqual(changes(plan, "/beer/volume", "21 L"), [{ op: "replace", path: "/beer/volume", value: "21 L" }]);
    assert.deepEqual(changes(plan, "/beer/volume", undefined), [{ op: "remove", path: "/beer/volume" }]);
    assert.deepEqual(changes(plan, "/beer/kind", undefined), []);
  });
  test("a place holds what is inside it, not what only begins alike", () => {
    assert.ok(isInside("/stages/1/water", "/stages/1") && isInside("/stages/1", "/stages/1"));
    assert.ok(!isInside("/stages/10", "/stages/1"));
  });
});

describe("links", () => {
  test("bring a plan back as it was", async () => {
    for (const text of ["{}", '{"title": "Käßchen 🍺\\n"}\n', "x".repeat(100_000)]) {
      const fragment = await fragmentOf(text);
      assert.match(fragment, /^#plan=[A-Za-z0-9_-]+$/);
      assert.equal(await planIn(fragment), text);
    }
  });
  test("that are damaged or swollen bring nothing", async () => {
    const bomb = "#plan=" + deflateRawSync(Buffer.alloc(50_000_000)).toString("base64url");
    for (const bad of ["", "#", "#plan=", "#plan=!!", "#plan=AAAA", "#other", (await fragmentOf("{}")).slice(0, -2), bomb])
      assert.equal(await planIn(bad), undefined, bad.slice(0, 40));
  });
});

describe("undo", () => {
  test("goes back and forth; typing in one field is one thing", (t) => {
    t.mock.method(Date, "now", () => 0);
    const draft = new Draft("0");
    draft.set("1", "a");
    draft.set("12", "a");
    draft.set("x", "b");
    assert.equal(draft.text, "x");
    draft.undo();
    assert.equal(draft.text, "12");
    draft.undo();
    assert.equal(draft.text, "0");
    assert.ok(!draft.canUndo && draft.canRedo);
    draft.undo();
    assert.equal(draft.text, "0");
    draft.redo();
    draft.redo();
    draft.redo();
    assert.equal(draft.text, "x");
    draft.undo();
    draft.set("new");
    assert.ok(!draft.canRedo);
  });
});

test("what is left on a timer is told by the clock", () => {
  assert.equal(leftText(720_000, 0), "12:00");
  assert.equal(leftText(500, 0), "0:01");
  assert.equal(leftText(3_909_000, 0), "1:05:09");
  assert.equal(leftText(0, 65_000), "over since 1:05");
});

test("an exercise is scored by what was ticked and what speaks", () => {
  const answers = (...pairs) => pairs.map(([ticked, speaks]) => ({ ticked, speaks }));
  assert.equal(scoreInWords(answers([true, true], [true, true], [false, false])), "You found 2 of 2. All right!");
  assert.equal(scoreInWords(answers([true, true], [false, true], [true, false])), "You found 1 of 2, and named 1 that is not there.");
  assert.equal(scoreInWords(answers([false, true], [true, false], [true, false])), "You found 0 of 1, and named 2 that are not there.");
  assert.deepEqual(answers([true, true], [false, true], [true, false], [false, false]).map(markOf), ["right", "missed", "wrong", undefined]);
});

describe("a lesson's prose", () => {
  const prose = (text) => proseWith({ text: "<img src=p.svg>" })(text).text;
  test("raw HTML is text, and links lead to no script", () => {
    const told = prose("<script>x()</script>\n\na <b onclick=x>b</b> [c](javascript:x) ![d](javascript:x) ![<i>](e)\n");
    assert.doesNotMatch(told, /<(script|b|i|a|img)\b/);
    assert.match(told, /&lt;script&gt;/);
  });
  test("names in backticks are code, also where they came as plain text", () => {
    assert.equal(prose("`a` and \\`b\\`, but \\`c < d\n"), "<p><code>a</code> and <code>b</code>, but `c &lt; d</p>\n");
  });
  test("the picture stands where it is called, in no paragraph", () => {
    assert.equal(prose("a\n\n![The steps](picture)\n\n*b*\n"), "<p>a</p>\n<img src=p.svg>\n<p><em>b</em></p>\n");
  });
});

describe("the engine as the pages have it", async () => {
  const { engineFrom } = await loaded("src/engine.ts");
  const bytesOf = (link) => readFile(join(wasm, `${link}.wasm`));
  const [small, club] = await Promise.all(["engine", "club"].map(async (link) => engineFrom(await bytesOf(link))));
  const lessonPlan = (name) => readFile(join(root, "lessons", "plans", name), "utf8");
  const plan = await lessonPlan("newcomer.plan.json"), practice = await lessonPlan("lantern-lane.practice.json");
  const refused = (engine, request, text = plan) => JSON.parse(engine.text(request, text)).error;

  test("what only clubs need the small one says it has not, and the other does", () => {
    for (const request of [{ do: "rows", rule: "glass-shock" }, { do: "explain" }, { do: "draw_process" }]) {
      assert.match(refused(small, request), /by the engine for clubs/);
      assert.equal(refused(club, request), undefined);
    }
    assert.match(refused(club, { do: "rows", rule: "glass-shok" }), /glass-shock/);
  });
  for (const [name, engine] of Object.entries({ small, club })) {
    test(`what the ${name} one refuses it says, and answers on`, () => {
      const says = (...asked) => refused(engine, ...asked);
      assert.match(says({ do: "change", patch: [{ op: "remove", path: "/stages/9/water" }] }), /does not fit/);
      assert.match(says({ do: "change", patch: [{ op: "test", path: "/stages/9/water", value: 1 }] }), /does not fit/);
      assert.match(says({ do: "change", patch: 7 }), /list of changes/);
      assert.match(says({ do: "change", patch: [] }, "{"), /mend its text/);
      assert.match(says({ do: 7 }), /text/);
      assert.match(says({ do: "chekc" }), /Did you mean check/);
      assert.ok(JSON.parse(engine.text({ do: "check" }, plan)).findings.length > 0);
    });
    test(`what the ${name} one refuses leaves no memory behind`, () => {
      // Copied often, so that what would be left behind is far more than what is read.
      const copies = Array.from({ length: 30 }, (_, i) => ({ op: "copy", from: "/long", path: `/long${i}` }));
      const unfit = { do: "change", patch: [{ op: "add", path: "/long", value: "x".repeat(20_000) }, ...copies, { op: "remove", path: "/nothing/here" }] };
      refused(engine, unfit);
      const before = engine.module.HEAPU8.length;
      for (let i = 0; i < 60; ++i) refused(engine, unfit);
      assert.equal(engine.module.HEAPU8.length, before);
    });
  }

  test("an acceptance that is refused leaves no memory behind", () => {
    const unfit = { do: "accept", rule: "glass-shock", where: "/steps/99", by: "Sorrel", because: "so be it" };
    assert.match(refused(club, unfit), /no such finding/);
    const before = club.module.HEAPU8.length;
    for (let i = 0; i < 300; ++i) refused(club, unfit);
    assert.equal(club.module.HEAPU8.length, before);
  });
  test("the small one refuses in words what only clubs need, and that for clubs answers it", () => {
    const [finding] = JSON.parse(club.text({ do: "check" }, plan)).findings;
    const word = { rule: finding.rule, where: finding.where, by: "Sorrel", because: "so be it", on: "" };
    const accepted = club.accept(plan, "p.plan.json", word);
    assert.match(accepted, /so be it/);
    for (const service of ["practice", "accepted", "accept", "withdraw"]) {
      assert.match(refused(small, { do: service, ...word }), /by the engine for clubs/, service);
      assert.doesNotMatch(refused(club, { do: service, ...word }) ?? "", /by the engine for clubs/, service);
    }
    for (const service of ["check", "look", "steps", "draw"]) {
      assert.match(refused(small, { do: service }, { plan, accepted }), /“accepted” is a club's file, and this engine reads none/, service);
      assert.equal(refused(club, { do: service }, { plan, accepted }), undefined, service);
      for (const [engine, says] of [[small, /“practice” is a club's file/], [club, undefined]]) {
        engine.practice = practice;
        const told = refused(engine, { do: service });
        engine.practice = undefined;
        if (says) assert.match(told, says, service);
        else assert.equal(told, undefined, service);
      }
    }
    assert.equal(club.practiceIn(practice, "").club, "Lantern Lane Brewers");
    assert.deepEqual(club.acceptedIn(accepted, "").records, [{ rule: word.rule, where: word.where }]);
  });
  test("both say the same of a plan without a club's files", () => {
    for (const request of [{ do: "look" }, { do: "check" }, { do: "steps" }, { do: "draw" }, { do: "schema" }])
      assert.equal(small.text(request, plan), club.text(request, plan), request.do);
  });
  test("that for clubs takes the small one's place, is fetched once, and again only where that failed", async () => {
    let fetched = 0, there = false;
    const engine = await engineFrom(await bytesOf("engine"), () => {
      ++fetched;
      return there ? bytesOf("club") : Promise.reject(new Error("no network"));
    });
    const asked = { do: "check", name: "p" };
    const before = engine.text(asked, plan);
    await assert.rejects(engine.needClub(), /no network/);
    assert.ok(!engine.forClubs);
    assert.equal(engine.text(asked, plan), before);
    there = true;
    await Promise.all([engine.needClub(), engine.needClub()]);
    await engine.needClub();
    assert.equal(fetched, 2);
    assert.ok(engine.forClubs);
    assert.equal(engine.text(asked, plan), before);
    assert.equal(engine.practiceIn(practice, "").club, "Lantern Lane Brewers");
  });
});
