/** The script that draws the solid. */
import { openSolid } from "./open.js";

Object.assign(window, { openSolid });
