/** Recordings that are not WAV: the editor's own page decodes what it can (Web Audio), and the result is passed on as WAV. */
import { l10n, type Uri, ViewColumn, window, workspace } from "vscode";
import { toBase64 } from "../../server/src/protocol/base64.js";
import type { FileQuestion } from "../../server/src/protocol/filesOfMakers.js";

/** Limit for the file and for the decoded recording: the page holds both. */
const MOST_BYTES = 100e6;
/** Hz that the page decodes to: listening needs 14,000. */
const RATE = 22_050;

/** Why a recording cannot be used, in words for the maker. */
export class NotDecoded extends Error {}

/** A WAV file of one channel. Rejects with NotDecoded. */
export async function decodedRecording(recording: Uri): Promise<FileQuestion> {
  const { size } = await workspace.fs.stat(recording);
  if (size > MOST_BYTES)
    throw new NotDecoded(
      l10n.t("It is larger than {0} MB. Save it as WAV, which is read piece by piece.", MOST_BYTES / 1e6),
    );
  const wav = floatWav(await decodedByPage(await workspace.fs.readFile(recording)));
  if (wav.length > MOST_BYTES)
    throw new NotDecoded(
      l10n.t(
        "It is longer than {0} minutes. Save it as WAV, which is read piece by piece.",
        Math.floor(MOST_BYTES / (4 * RATE * 60)),
      ),
    );
  return { file: "recording.wav", base64: toBase64(wav) };
}

/** A page works while it is seen: it stands beside the text for as long as that takes. */
function decodedByPage(bytes: Uint8Array): Promise<Float32Array> {
  const place = { viewColumn: ViewColumn.Beside, preserveFocus: true };
  const panel = window.createWebviewPanel("borewright.decoding", l10n.t("Reading the recording"), place, {
    enableScripts: true,
    localResourceRoots: [],
  });
  const heard = new Promise<Float32Array>((resolve, reject) => {
    panel.onDidDispose(() => reject(new NotDecoded(l10n.t("Its page was closed before it was read."))));
    panel.webview.onDidReceiveMessage((message: { ready?: true; samples?: ArrayBuffer; trouble?: string }) => {
      if (message.ready) void panel.webview.postMessage({ bytes: Uint8Array.from(bytes).buffer });
      else if (message.samples !== undefined) resolve(new Float32Array(message.samples));
      else
        reject(
          new NotDecoded(
            l10n.t("This editor cannot decode it ({0}). Save it as WAV in any sound editor.", String(message.trouble)),
          ),
        );
    });
  });
  panel.webview.html = page();
  return heard.finally(() => panel.dispose());
}

/** Nothing is loaded from anywhere. Channels are averaged. */
function page(): string {
  const nonce = toBase64(crypto.getRandomValues(new Uint8Array(16)));
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}';">
<title>${l10n.t("Reading the recording")}</title>
</head>
<body>
<p>${l10n.t("The recording is being decoded…")}</p>
<script nonce="${nonce}">
const editor = acquireVsCodeApi();
addEventListener("message", async ({ data }) => {
  try {
    const sound = await new OfflineAudioContext(1, 1, ${RATE}).decodeAudioData(data.bytes);
    const samples = new Float32Array(sound.length);
    for (let c = 0; c < sound.numberOfChannels; c++) {
      const channel = sound.getChannelData(c);
      for (let i = 0; i < samples.length; i++) samples[i] += channel[i] / sound.numberOfChannels;
    }
    editor.postMessage({ samples: samples.buffer });
  } catch (error) {
    editor.postMessage({ trouble: String(error && error.message || error) });
  }
});
editor.postMessage({ ready: true });
</script>
</body>
</html>`;
}

/** RIFF WAVE of 32-bit floats, one channel (Microsoft, Multiple Channel Audio Data and WAVE Files; format 3). */
function floatWav(samples: Float32Array): Uint8Array {
  const bytes = new Uint8Array(44 + 4 * samples.length);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => bytes.set(new TextEncoder().encode(text), at);
  word(0, "RIFF");
  view.setUint32(4, bytes.length - 8, true);
  word(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 3, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE, true);
  view.setUint32(28, 4 * RATE, true);
  view.setUint16(32, 4, true);
  view.setUint16(34, 32, true);
  word(36, "data");
  view.setUint32(40, 4 * samples.length, true);
  for (const [i, sample] of samples.entries()) view.setFloat32(44 + 4 * i, sample, true);
  return bytes;
}
