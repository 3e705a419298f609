// The ticket: the sheet of paper that goes with the piece from the print to the wall.
import { RadioGroup } from "../controls/choice";
import { MadeReport, Outcome, ProgressBar } from "../controls/making";
import { bytesShown } from "../state/layout/consequences";
import { makeTicket, ticket, ticketPaper } from "../state/output/ticket";
import { say, sayParts } from "../../speech/on_page";

const PAPERS = [
  { value: "a4", word: say("A4") },
  { value: "letter", word: say("Letter") },
] as const;

export function Ticket() {
  const now = ticket.now.value;
  return (
    <div class="part" id="ticket">
      <h3 class="minor">{say("Ticket")}</h3>
      <p class="meaning">
        {say(
          "A sheet of paper to print on both sides, which goes with the piece: sizes, what to load, colours, the fold step by step, stretching and hanging, with boxes to tick and a place to sign.",
        )}
      </p>
      <div class="field">
        <RadioGroup
          id="ticket-paper"
          label={say("Paper of the ticket")}
          value={ticketPaper.value}
          options={PAPERS}
          choose={(chosen) => (ticketPaper.value = chosen)}
        />
      </div>
      <div class="write">
        {now.state === "making" ? (
          <ProgressBar id="ticket-progress" progress={now} stop={() => ticket.stop()} />
        ) : (
          <button type="button" class="button" id="save-ticket" onClick={() => void makeTicket()}>
            {say("Save the ticket")}
          </button>
        )}
      </div>
      <Outcome now={now} stopped={say("no ticket was saved")}>
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made} id="ticket-report">
              <p>
                {sayParts("{file} was saved, opened again and checked: {pages} pages, {bytes}.", {
                  file: <strong>{made.report.file}</strong>,
                  pages: made.report.pages,
                  bytes: bytesShown(made.report.bytes),
                })}
              </p>
            </MadeReport>
          ))
        }
      </Outcome>
    </div>
  );
}
