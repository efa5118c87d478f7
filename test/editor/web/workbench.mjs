/** What is otherwise in an editor without a server: Quick Open searches no files there. */
import { Workbench } from "../page.mjs";

export class WebWorkbench extends Workbench {
  async openFile(name) {
    const row = this.page.locator(".explorer-folders-view .monaco-list-row", { hasText: name });
    await this.press(row);
    await this.page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
    await this.text.ready();
  }
}
