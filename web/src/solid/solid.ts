/** The gamut solid: the canvas's gamut in CIELAB, with the picture's colours in and around it. */

import { Mesh, Scene, ShaderMaterial } from "three";
import { listen } from "../stage/camera/controls";
import { coveringTriangle } from "../stage/drawing/geometry";
import { FrameLoop } from "../stage/drawing/loop";
import { drawnRatio } from "../stage/drawing/ratio";
import { StageRenderer } from "../stage/drawing/renderer";
import { spread } from "../stage/piece/flat_triangles";
import type { Theme } from "../stage/types";
import { type Axes, floorAxes, lightnessRuler } from "./axes";
import { checkMesh, checkPoints } from "./checks";
import { sharpEdges } from "./edges";
import { labPoints, reachOf } from "./lab_space";
import { lines, type LineSet } from "./lines";
import { marksScene } from "./marks_scene";
import { GROUND_FRAGMENT, GROUND_VERTEX } from "./shaders";
import { SolidCamera } from "./solid_camera";
import { surfaceScene } from "./surface_scene";
import { SOLID_COLOURS } from "./theme";
import type { Solid, SolidMesh, SolidOptions, SolidPoints } from "./types";
import { setSolidColours, solidUniforms } from "./uniforms";
import { AxisLabels } from "./axis_labels";
import { mark, say } from "../speech/say";

export * from "./types";

const SHARP_RAD = (28 * Math.PI) / 180;
const LABEL = mark(
  "The colours that the canvas can hold, as a solid in CIELAB, with the picture's colours: dots inside, diamonds outside with a line to where they print. Arrow keys turn it, Shift and arrow keys move it, plus and minus zoom, Home goes back.",
);

/** Put a solid into `host`; throws `StageUnavailable` where there is no WebGL 2. */
export function createSolid(host: HTMLElement, options: SolidOptions): Solid {
  return new LabSolid(host, options);
}

function lineSet(axes: Axes): LineSet {
  return {
    starts: new Float32Array(axes.lines.flatMap((line) => line.from)),
    finishes: new Float32Array(axes.lines.flatMap((line) => line.to)),
    strengths: new Float32Array(axes.lines.map((line) => line.strength)),
  };
}

class LabSolid implements Solid {
  private readonly renderer: StageRenderer;
  private readonly shared = solidUniforms();
  private readonly surface = surfaceScene();
  private readonly marks = marksScene(this.shared);
  private readonly edges = lines(this.shared, { widthPx: 1, ink: this.shared.ink, renderOrder: 4 });
  private readonly floor = lines(this.shared, { widthPx: 1, ink: this.shared.quietInk, renderOrder: 0 });
  private readonly ruler = lines(this.shared, { widthPx: 1, ink: this.shared.quietInk, renderOrder: 0 });
  private readonly ground: Mesh;
  private readonly groundMaterial: ShaderMaterial;
  private readonly scene = new Scene();
  private readonly sight: SolidCamera;
  private readonly labels = new AxisLabels();
  private readonly frame = document.createElement("div");
  private readonly loop = new FrameLoop((dtS) => this.draw(dtS));
  private readonly watcher: ResizeObserver;
  private readonly unlisten: () => void;
  private labs: { solid: Float32Array; points: Float32Array } = {
    solid: new Float32Array(0),
    points: new Float32Array(0),
  };
  private reach = 100;
  private turnedTo = Number.NaN;

  constructor(
    private readonly host: HTMLElement,
    options: SolidOptions,
  ) {
    this.renderer = new StageRenderer({ lost: () => this.release(), restored: () => this.loop.touch() });
    this.sight = new SolidCamera(options.reducedMotion);
    this.groundMaterial = new ShaderMaterial({
      uniforms: { ...this.shared },
      vertexShader: GROUND_VERTEX,
      fragmentShader: GROUND_FRAGMENT,
      depthWrite: false,
    });
    this.ground = new Mesh(coveringTriangle(), this.groundMaterial);
    this.ground.frustumCulled = false;
    this.ground.renderOrder = -1;
    const drawn = [this.floor.mesh, this.ruler.mesh, this.edges.mesh];
    this.scene.add(this.ground, this.surface.group, this.marks.group, ...drawn);

    const { element } = this.renderer;
    element.tabIndex = 0;
    element.setAttribute("role", "application");
    element.setAttribute("aria-label", say(LABEL));
    element.style.cssText = "display:block;width:100%;height:100%;touch-action:none";
    this.frame.style.cssText = "position:relative;width:100%;height:100%";
    this.frame.append(element, this.labels.element);
    host.append(this.frame);
    this.unlisten = listen(element, {
      wish: (wish) => {
        this.sight.follow(wish);
        this.loop.touch();
      },
      home: () => {
        this.sight.goHome();
        this.loop.touch();
      },
    });
    this.setTheme("light");
    this.setReach();
    this.watcher = new ResizeObserver(() => this.resize());
    this.watcher.observe(host);
    this.resize();
  }

  get frames(): number {
    return this.renderer.counters.frames;
  }

  setSolid(mesh: SolidMesh): void {
    checkMesh(mesh);
    this.surface.setMesh(mesh);
    const positions = labPoints(mesh.lab);
    const edges = sharpEdges(positions, mesh.triangles, SHARP_RAD);
    this.edges.set({
      starts: spread(
        positions,
        edges.filter((_, i) => i % 2 === 0),
        3,
      ),
      finishes: spread(
        positions,
        edges.filter((_, i) => i % 2 === 1),
        3,
      ),
      strengths: new Float32Array(edges.length / 2).fill(0.4),
    });
    this.labs = { ...this.labs, solid: mesh.lab };
    this.setReach();
  }

  setPoints(points: SolidPoints): void {
    checkPoints(points);
    this.marks.setPoints(points);
    this.labs = { ...this.labs, points: points.lab };
    this.setReach();
  }

  setThreshold(de: number): void {
    this.shared.thresholdDe.value = de;
    this.loop.touch();
  }

  setTheme(theme: Theme): void {
    setSolidColours(this.shared, theme);
    this.labels.setInk(SOLID_COLOURS[theme].quietInk);
    this.loop.touch();
  }

  resize(): void {
    const widthPx = Math.max(1, this.host.clientWidth);
    const heightPx = Math.max(1, this.host.clientHeight);
    this.renderer.setSize(widthPx, heightPx, drawnRatio());
    const { width, height } = this.renderer.element;
    this.shared.viewport.value.set(width, height);
    this.shared.pixelRatio.value = height / heightPx;
    this.sight.setSize(widthPx, heightPx);
    this.loop.touch();
  }

  dispose(): void {
    this.watcher.disconnect();
    this.unlisten();
    this.loop.dispose();
    this.release();
    this.renderer.dispose();
    this.frame.remove();
  }

  /** Axes that hold all that is shown. */
  private setReach(): void {
    this.reach = reachOf([this.labs.solid, this.labs.points]);
    this.floor.set(lineSet(floorAxes(this.reach)));
    this.sight.setReach(this.reach);
    this.turnedTo = Number.NaN;
    this.loop.touch();
  }

  /** The ruler of L* stands at the left rim, however the solid is turned. */
  private turnRuler(): void {
    const { azimuthRad } = this.sight;
    if (azimuthRad === this.turnedTo) return;
    this.turnedTo = azimuthRad;
    // The camera's left in the plane of a* and b*: b* runs away from the viewer.
    const outA = -Math.cos(azimuthRad);
    const outB = -Math.sin(azimuthRad);
    const ruler = lightnessRuler(outA * this.reach, outB * this.reach, outA, outB);
    this.ruler.set(lineSet(ruler));
    this.labels.set([...floorAxes(this.reach).labels, ...ruler.labels]);
  }

  private draw(dtS: number): boolean {
    if (this.renderer.lost) return false;
    const moving = this.sight.step(dtS);
    this.turnRuler();
    this.renderer.draw(this.scene, this.sight.camera);
    this.labels.show(this.sight.camera, this.frame.clientWidth, this.frame.clientHeight);
    return moving;
  }

  /** Free everything on the graphics processor; the next drawing uploads what it needs. */
  private release(): void {
    for (const part of [this.surface, this.marks, this.edges, this.floor, this.ruler]) part.dispose();
    this.ground.geometry.dispose();
    this.groundMaterial.dispose();
    this.renderer.release();
  }
}
