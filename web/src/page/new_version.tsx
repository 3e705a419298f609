// Says that a new version of the page is there, and shows it when asked.
import { newVersion, takeNewVersion } from "./state/page/offline";

export function NewVersion() {
  return (
    <div class="new-version" role="status">
      {newVersion.value !== undefined && (
        <>
          <p>A new version is ready. Your work is kept.</p>
          <button type="button" class="button" onClick={takeNewVersion}>
            Load the new version
          </button>
        </>
      )}
    </div>
  );
}
