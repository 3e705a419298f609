/** A program of the graphics processor with its places, and what every program of a photographed wall is given. */
import type { Look } from "./light";
import type { Camera, Point } from "./plane";

interface Sight {
  readonly camera: Camera;
  readonly photo: Point;
  readonly look: Look;
}

export class Program {
  private readonly program: WebGLProgram;
  private readonly places = new Map<string, WebGLUniformLocation | null>();

  constructor(
    private readonly gl: WebGL2RenderingContext,
    vertex: string,
    fragment: string,
  ) {
    this.program = gl.createProgram();
    for (const [kind, text] of [
      [gl.VERTEX_SHADER, vertex],
      [gl.FRAGMENT_SHADER, fragment],
    ] as const) {
      const shader = gl.createShader(kind);
      if (shader === null) throw new PainterUnavailable("no shader was made");
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(this.program, shader);
    }
    gl.linkProgram(this.program);
    if (gl.getProgramParameter(this.program, gl.LINK_STATUS) !== true && !gl.isContextLost()) {
      throw new Error(`the program was refused: ${gl.getProgramInfoLog(this.program) ?? ""}`);
    }
  }

  place(name: string): WebGLUniformLocation | null {
    const known = this.places.get(name);
    if (known !== undefined) return known;
    const found = this.gl.getUniformLocation(this.program, name);
    this.places.set(name, found);
    return found;
  }

  /** What both programs need: whose camera, which photograph, where the light comes from, and what hangs where. */
  use({ camera, photo, look }: Sight, at: Point): void {
    const { gl } = this;
    gl.useProgram(this.program);
    gl.uniform4fv(this.place("camera"), camera.flat());
    gl.uniform2f(this.place("photo"), ...photo);
    gl.uniform2f(this.place("at"), ...at);
    gl.uniform2f(this.place("drawing"), gl.drawingBufferWidth, gl.drawingBufferHeight);
    gl.uniform1i(this.place("inFront"), 1);
    const turn = (look.fromDeg * Math.PI) / 180;
    gl.uniform2f(this.place("light"), Math.sin(turn), Math.cos(turn));
  }

  attribute(name: string, size: number, stride: number, from: number): void {
    const { gl } = this;
    const place = gl.getAttribLocation(this.program, name);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, size, gl.FLOAT, false, stride * 4, from * 4);
  }
}

/** Nothing can be drawn here; the photograph stands alone, and the core draws the still. */
export class PainterUnavailable extends Error {
  override readonly name = "PainterUnavailable";
}
