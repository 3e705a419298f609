// How the print file's pixels are made: enlarging, bits a channel, and sharpening, seen at their own size.
import { useSignal } from "@preact/signals";
import type { FileKind } from "../../../contract/types";
import { percentShown } from "../../../units";
import { AmountField } from "../../controls/amount";
import { Choice } from "../../controls/choice";
import { Consequence, ErrorText } from "../../controls/labelled_field";
import { TruePicture, useSeen } from "../../controls/small_picture";
import { choicesSeen, detailQuery, drawAgain } from "../../state/choices/choices";
import { depthOf, enlargement } from "../../state/layout/consequences";
import { DEPTHS, ENLARGINGS } from "../../state/page/names";
import { setEnlarging, setPrint } from "../../state/work/edit";
import { job, shown } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function Pixels({ kind }: { readonly kind: FileKind }) {
  const now = job.value;
  const layout = shown.value?.layout;
  if (now === undefined || layout === undefined) return null;
  return (
    <>
      <Choice
        field="picture.enlarging"
        label={say("Enlarging")}
        value={now.picture.enlarging}
        options={ENLARGINGS}
        set={setEnlarging}
        consequence={enlargement(layout, now)}
      />
      <Choice
        field="print.bits"
        label={say("Bits a channel")}
        value={now.print.bits === 16 ? "16" : "8"}
        options={DEPTHS}
        set={(bits) => setPrint({ bits: bits === "16" ? 16 : 8 })}
        consequence={depthOf(now, kind)}
      />
      <Sharpening amount={now.print.sharpening} />
    </>
  );
}

function Sharpening({ amount }: { readonly amount: number }) {
  const live = useSignal<number | undefined>(undefined);
  return (
    <div>
      <AmountField
        field="print.sharpening"
        label={say("Sharpening")}
        value={amount}
        set={(sharpening) => setPrint({ sharpening })}
        live={live}
        from={0}
        to={1}
        by={0.05}
        scale={100}
        unit="%"
        shown={percentShown}
        consequence={
          amount === 0
            ? say("Nothing is sharpened.")
            : say("The finest detail is strengthened, since ink on woven canvas softens it.")
        }
      />
      {amount > 0 && <SharpeningShown />}
    </div>
  );
}

/** The part of the face that has most edges, without and with sharpening. */
function SharpeningShown() {
  const place = useSeen(choicesSeen.detail);
  const detail = detailQuery.known.value?.value;
  const isStale = detailQuery.fresh.value === undefined;
  const failure = detailQuery.failure.value;
  return (
    <div class="sharpening" id="sharpening-shown" ref={place} data-state={isStale ? "stale" : "drawn"}>
      {detail && (
        <div class="true-pictures">
          <figure>
            <TruePicture image={detail.plain} label={say("A part of the face without sharpening")} />
            <figcaption>{say("Without")}</figcaption>
          </figure>
          <figure>
            <TruePicture image={detail.sharpened} label={say("The same part sharpened")} />
            <figcaption>{say("Sharpened")}</figcaption>
          </figure>
        </div>
      )}
      <p class="aside">
        {detail
          ? say("The part of the face with most edges, each pixel of the print file as one of the screen.")
          : say("Drawing a part of the print file …")}
      </p>
      {failure && (
        <div class="picture-failure" role="alert">
          <Consequence text={say("The part could not be drawn; sharpening works without it.")} />
          <ErrorText why={failure} />
          <button type="button" class="link" onClick={drawAgain}>
            {say("Draw it again")}
          </button>
        </div>
      )}
    </div>
  );
}
