/** Every kind of abuse, in the order in which they are tried. */
import type { Kind } from "../kind.js";
import { changes } from "./changes.js";
import { commands } from "./commands.js";
import { designs } from "./designs.js";
import { documents } from "./documents.js";
import { endurance } from "./endurance.js";
import { files } from "./files.js";
import { protocol } from "./protocol.js";

export const KINDS: readonly Kind<unknown>[] = [documents, designs, changes, commands, protocol, files, endurance];
