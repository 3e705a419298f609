// One job in the list: its small picture, what it is, and what can be done with it.
import { useEffect, useState } from "preact/hooks";
import { jobAbout, jobDate, jobName, jobRoom, jobSize } from "../state/keeping/job_lines";
import { jobs } from "../state/keeping/jobs";
import { copyFromList, deleteFromList, listBusy, openFromList, saveFromList, toDelete } from "../state/keeping/list";
import { currentId } from "../state/keeping/mode";
import type { JobEntry } from "../state/keeping/records";
import { unit } from "../state/page/settings";
import { say } from "../../speech/on_page";

export function JobLine({ entry, now_ms }: { readonly entry: JobEntry; readonly now_ms: number }) {
  const isHere = entry.id === currentId.value;
  const name = jobName(entry);
  const about = jobAbout(entry, jobs.value, unit.value, now_ms);
  const busy = listBusy.value;
  return (
    <li class="job-line" data-job={entry.id} aria-current={isHere ? "true" : undefined}>
      <SmallPicture blob={entry.small} />
      <div class="job-line-words">
        <p class="job-line-name">{name}</p>
        {entry.client && <p class="job-line-client">{say("for {client}", { client: entry.client })}</p>}
        <p class="job-line-facts">
          {jobSize(entry, unit.value)} · {jobRoom(entry)} · {jobDate(entry.changed_ms, now_ms)}
        </p>
        {toDelete.value === entry.id ? (
          <Confirm entry={entry} />
        ) : (
          <div class="job-line-actions">
            {isHere ? (
              <span class="job-line-here">{say("Open here")}</span>
            ) : (
              <Action word={say("Open")} about={about} disabled={busy} act={() => void openFromList(entry)} />
            )}
            <Action word={say("Open a copy")} about={about} disabled={busy} act={() => void copyFromList(entry)} />
            <Action word={say("Save the bundle")} about={about} disabled={busy} act={() => void saveFromList(entry)} />
            <Action word={say("Delete")} about={about} disabled={busy} act={() => (toDelete.value = entry.id)} />
          </div>
        )}
      </div>
    </li>
  );
}

interface ActionProps {
  readonly word: string;
  readonly about: string;
  readonly disabled: boolean;
  readonly act: () => void;
}

function Action({ word, about, disabled, act }: ActionProps) {
  return (
    <button type="button" class="text-button" aria-label={`${word}: ${about}`} disabled={disabled} onClick={act}>
      {word}
    </button>
  );
}

function Confirm({ entry }: { readonly entry: JobEntry }) {
  return (
    <div class="job-line-actions" role="alert">
      <span>{say("It cannot be brought back.")}</span>
      <button type="button" class="text-button" disabled={listBusy.value} onClick={() => void deleteFromList(entry)}>
        {say("Delete this job")}
      </button>
      {/* Enter, pressed once more by mistake, deletes nothing. */}
      <button
        type="button"
        class="text-button"
        ref={(element) => element?.focus()}
        onClick={() => (toDelete.value = undefined)}
      >
        {say("Keep it")}
      </button>
    </div>
  );
}

function SmallPicture({ blob }: { readonly blob: Blob | undefined }) {
  const [address, setAddress] = useState("");
  useEffect(() => {
    if (blob === undefined) return undefined;
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [blob]);
  return <div class="job-line-picture">{address !== "" && <img src={address} alt="" />}</div>;
}
