/** Every request: cancelled when told to, never answered for an older text, never the end of the server. */

import { describe, expect, it } from "vitest";
import { CancellationTokenSource, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import { type GuardedRequest, guarded } from "../../server/src/language/guard.js";

function request(given: Partial<GuardedRequest<string>>): GuardedRequest<string> & { logged: string[] } {
  const logged: string[] = [];
  return {
    name: "Test",
    token: new CancellationTokenSource().token,
    isStale: () => false,
    fallback: "nothing",
    log: (message) => logged.push(message),
    work: () => "answer",
    logged,
    ...given,
  };
}

function codeOf(answer: unknown): number | undefined {
  return answer instanceof ResponseError ? answer.code : undefined;
}

describe("guarded", () => {
  it("gives the answer", async () => {
    expect(await guarded(request({}))).toBe("answer");
  });

  it("does not start work that is cancelled before it begins", async () => {
    const source = new CancellationTokenSource();
    let started = false;
    const work = () => {
      started = true;
      return "answer";
    };
    const answer = guarded(request({ token: source.token, work }));
    source.cancel();
    expect(codeOf(await answer)).toBe(LSPErrorCodes.RequestCancelled);
    expect(started).toBe(false);
  });

  it("drops an answer that is cancelled while it is computed, and signals the work", async () => {
    const source = new CancellationTokenSource();
    const work = (shouldStop: () => boolean) => {
      expect(shouldStop()).toBe(false);
      source.cancel();
      if (shouldStop()) throw new Cancelled();
      return "too late";
    };
    const asked = request({ token: source.token, work });
    expect(codeOf(await guarded(asked))).toBe(LSPErrorCodes.RequestCancelled);
    expect(asked.logged).toEqual([]);
  });

  it("says so when the text has changed while it waited or worked", async () => {
    let version = 1;
    const waiting = guarded(request({ isStale: () => version > 1 }));
    version = 2;
    expect(codeOf(await waiting)).toBe(LSPErrorCodes.ContentModified);
    const working = guarded(request({ isStale: () => version > 2, work: () => `for version ${version++}` }));
    expect(codeOf(await working)).toBe(LSPErrorCodes.ContentModified);
  });

  it("falls back and logs where the work fails", async () => {
    const asked = request({
      work: () => {
        throw new TypeError("no such thing");
      },
    });
    expect(await guarded(asked)).toBe("nothing");
    expect(asked.logged.join()).toContain("Test failed");
    expect(asked.logged.join()).toContain("no such thing");
  });
});
