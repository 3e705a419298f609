// Says that a new version of the page is there, and shows it when asked.
import { newVersion, takeNewVersion } from "./state/page/offline";
import { say } from "../speech/on_page";

export function NewVersion() {
  return (
    <div class="new-version" role="status">
      {newVersion.value !== undefined && (
        <>
          <p>{say("A new version is ready. Your work is kept.")}</p>
          <button type="button" class="button" onClick={takeNewVersion}>
            {say("Load the new version")}
          </button>
        </>
      )}
    </div>
  );
}
