/** The fold with the solid in it. What draws it is a script of its own, loaded when this is first opened. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { SolidAnswer } from "../../../server/src/protocol/making.js";
import { t } from "../../../server/src/words/translation.js";
import { host } from "../host.js";
import type { ToView } from "../messages.js";
import type { OpenSolid, Solid } from "./solid.js";

/** The page's own scripts are the only ones that its policy lets run; only while one starts is it known which it is. */
const NONCE = (document.currentScript as HTMLScriptElement | null)?.nonce ?? "";

/** @param version of the text: another one has another solid */
export function SolidView({ version }: { readonly version: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const solid = useRef<Solid | undefined>(undefined);
  const [words, setWords] = useState(t("Making the solid…"));
  const [isCut, setCut] = useState(false);

  useEffect(() => {
    let over = false;
    const show = async ({ parts, refused }: SolidAnswer) => {
      if (refused !== undefined) return setWords(refused);
      if (parts.length === 0) return; // a newer text has asked anew
      try {
        const open = await loaded();
        if (over || canvas.current === null) return;
        solid.current ??= open(canvas.current, setWords);
        solid.current.show(parts);
      } catch (error) {
        setWords(error instanceof Error ? error.message : String(error));
      }
    };
    const receive = ({ data }: MessageEvent<ToView>) => data.type === "solid" && void show(data.answer);
    window.addEventListener("message", receive);
    return () => {
      over = true;
      window.removeEventListener("message", receive);
      solid.current?.dispose();
    };
  }, []);
  useEffect(() => host.post({ type: "solid" }), [version]);
  useEffect(() => solid.current?.cut(isCut), [isCut]);

  return (
    <div class="solid">
      <canvas
        ref={canvas}
        tabIndex={0}
        role="img"
        aria-label={t(
          "The solid. Drag or arrow keys turn it, the wheel or + and − bring it nearer, Home puts it back.",
        )}
      />
      <p role="status">{words}</p>
      <label>
        <input type="checkbox" checked={isCut} onChange={(event) => setCut(event.currentTarget.checked)} />{" "}
        {t("cut open")}
      </label>
    </div>
  );
}

let loading: Promise<OpenSolid> | undefined;

function loaded(): Promise<OpenSolid> {
  loading ??= new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.nonce = NONCE;
    script.src = document.body.dataset.solid ?? "";
    script.onload = () => {
      const { openSolid } = window as { openSolid?: OpenSolid };
      if (openSolid === undefined) reject(new Error("What draws the solid did not start."));
      else resolve(openSolid);
    };
    script.onerror = () => reject(new Error("What draws the solid could not be loaded."));
    document.head.append(script);
  });
  return loading;
}
