// The ticket: the sheet of paper that goes with the piece from the print to the wall.
import { RadioGroup } from "../controls/choice";
import { MadeReport, Outcome, ProgressBar } from "../controls/making";
import { bytesShown } from "../state/layout/consequences";
import { makeTicket, ticket, ticketPaper } from "../state/output/ticket";

const PAPERS = [
  { value: "a4", word: "A4" },
  { value: "letter", word: "Letter" },
] as const;

export function Ticket() {
  const now = ticket.now.value;
  return (
    <div class="part" id="ticket">
      <h3 class="minor">Ticket</h3>
      <p class="meaning">
        A sheet of paper to print on both sides, which goes with the piece: sizes, what to load, colours, the fold step
        by step, stretching and hanging, with boxes to tick and a place to sign.
      </p>
      <div class="field">
        <RadioGroup
          id="ticket-paper"
          label="Paper of the ticket"
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
            Save the ticket
          </button>
        )}
      </div>
      <Outcome now={now} stopped="no ticket was saved">
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made} id="ticket-report">
              <p>
                <strong>{made.report.file}</strong> was saved, opened again and checked: {made.report.pages} pages,{" "}
                {bytesShown(made.report.bytes)}.
              </p>
            </MadeReport>
          ))
        }
      </Outcome>
    </div>
  );
}
