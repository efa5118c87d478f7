/** The script that draws the solid. */
import { speakAsTheEditor } from "../language.js";
import { openSolid } from "./open.js";

speakAsTheEditor();
Object.assign(window, { openSolid });
