/** The page of the bore view. */
import { render } from "preact";
import { App } from "./components/App.js";
import { speakAsTheEditor } from "./language.js";
import "./view.css";

speakAsTheEditor();
render(<App />, document.body);
