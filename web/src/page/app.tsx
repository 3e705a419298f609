// The page: header, stage with its controls, notes, and the sections.
import { MarginNotes } from "./margin_notes";
import { PageHeader } from "./header";
import { Loading, Preview } from "./preview";
import { Section } from "./controls/section";
import { SECTIONS } from "./section_table";
import { SettingsLine } from "./settings_line";
import { compared } from "./state/compare/comparison";
import { busy, shown } from "./state/work/work";
import { loading, painted, announcement } from "./state/page/status";
import { scene, wallState } from "./state/page/view";
import { ColourCaption, HighlightCaption } from "./wall/colour_caption";
import { FoldSlider, StageSwitches } from "./wall/stage_controls";
import { PaneCaptions } from "./wall/pane_captions";
import { SheetView } from "./wall/sheet_view";
import { SheetWords } from "./wall/sheet_words";
import { Wall } from "./wall/wall";
import { dropping } from "./page_events";

export function App() {
  return (
    <div class="page">
      <a class="skip" href="#work">
        To the work
      </a>
      <PageHeader />
      <main class="main">
        <div class="stage">
          <div class="stage-picture">
            {painted.value && <Wall />}
            {scene.value === "sheet" && <SheetView />}
            <Preview />
            {wallState.value === "lost" && (
              <p class="lost">
                The graphics processor let go of the wall; it is being brought back. The sheet can still be seen.
              </p>
            )}
            {wallState.value === "still" && (
              <p class="lost" role="status">
                The graphics processor has not come back. This is a still picture of the wall as it was; the sheet, the
                figures and all files still follow every change. Loading the page again may bring the wall back.
              </p>
            )}
            {shown.value !== undefined && loading.value.state !== "ready" && (
              <div class="restart-loading">
                <Loading />
              </div>
            )}
            {shown.value !== undefined && scene.value === "wall" && compared.value === undefined && (
              <ColourCaption place="wall" />
            )}
            <HighlightCaption />
            <PaneCaptions />
            <Status />
          </div>
          <div class="stage-controls">
            {shown.value === undefined ? (
              <Loading />
            ) : (
              <>
                <StageSwitches />
                {scene.value === "wall" ? <FoldSlider /> : <SheetWords />}
                {scene.value === "wall" && compared.value !== undefined && <ColourCaption place="controls" />}
              </>
            )}
          </div>
        </div>
        <MarginNotes />
        <div class="work" id="work" tabIndex={-1}>
          {shown.value === undefined ? (
            <p class="work-loading">
              {loading.value.state === "failed"
                ? "The work cannot begin."
                : "The bench is being set up: Python is loading in this page. Nothing is sent anywhere."}
            </p>
          ) : (
            <>
              <nav class="section-list" aria-label="Places at the bench">
                {SECTIONS.map(({ id, title, label = title }) => (
                  <a key={id} href={`#${id}`}>
                    {label}
                  </a>
                ))}
              </nav>
              {SECTIONS.map(({ id, title, Content }, place) => (
                <Section key={id} id={id} number={place + 1} title={title}>
                  <Content />
                </Section>
              ))}
              <SettingsLine />
            </>
          )}
        </div>
      </main>
      {dropping.value && <div class="dropping">Let go to open it</div>}
    </div>
  );
}

/** Shows the latest announcement, and whether the core is busy. */
function Status() {
  return (
    <div class="status">
      <p class="status-announcement" role="status">
        {announcement.value}
      </p>
      <p class="status-busy" aria-hidden="true" data-busy={busy.value !== ""}>
        {busy.value}
      </p>
    </div>
  );
}
