/** Draws a scene: WebGL, flat faces, one light from the viewer's shoulder, no perspective, so that what is parallel stays so. */
import type { Scene } from "./scene.js";
import { cross, minus, type Turn, unit, type Vector } from "./vector.js";

export interface Camera {
  readonly turn: Turn;
  /** Point of the instrument in the middle of the picture. */
  readonly middle: Vector;
  /** CSS pixels per millimetre. */
  readonly zoom: number;
}

const VERTEX = `
attribute vec3 at, normal, colour;
uniform mat3 turn;
uniform vec3 middle;
uniform vec3 scale;
varying vec3 place, lit, tint;
void main() {
  vec3 seen = turn * (at - middle);
  place = at;
  lit = turn * normal;
  tint = colour;
  gl_Position = vec4(seen * scale, 1.0);
}`;
const FRAGMENT = `
precision mediump float;
uniform float cut;
varying vec3 place, lit, tint;
void main() {
  if (cut > 0.5 && place.x < 0.0) discard;
  // Faces seen from behind are wood that was cut through.
  if (!gl_FrontFacing) { gl_FragColor = vec4(tint * 0.45, 1.0); return; }
  float light = 0.35 + 0.65 * max(0.0, dot(normalize(lit), vec3(-0.35, 0.45, 0.82)));
  gl_FragColor = vec4(tint * light, 1.0);
}`;

/** By part, light wood to dark; all apart on light and dark grounds. */
const TINTS: readonly Vector[] = [
  [0.86, 0.72, 0.5],
  [0.5, 0.66, 0.72],
  [0.76, 0.54, 0.42],
  [0.58, 0.7, 0.48],
];

export class Painter {
  private readonly gl: WebGLRenderingContext;
  private readonly program: WebGLProgram;
  private count = 0;

  /** @throws where the page cannot draw so */
  constructor(private readonly canvas: HTMLCanvasElement) {
    const gl = canvas.getContext("webgl", { antialias: true, alpha: true });
    const program = gl?.createProgram();
    if (gl === null || !program) throw new Error("The solid cannot be shown: this window has no WebGL.");
    this.gl = gl;
    this.program = program;
    for (const [kind, source] of [
      [gl.VERTEX_SHADER, VERTEX],
      [gl.FRAGMENT_SHADER, FRAGMENT],
    ] as const) {
      const shader = gl.createShader(kind);
      if (shader === null) throw new Error("The solid cannot be shown: the window's drawing was lost.");
      gl.shaderSource(shader, source);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS))
      throw new Error(`The solid cannot be shown: ${gl.getProgramInfoLog(program)}`);
    gl.useProgram(program);
    gl.enable(gl.DEPTH_TEST);
  }

  take({ corners, part }: Scene): void {
    const normals = new Float32Array(corners.length);
    const colours = new Float32Array(corners.length);
    for (let i = 0; i < corners.length; i += 9) {
      const at = (k: number): Vector => [corners[i + k] ?? 0, corners[i + k + 1] ?? 0, corners[i + k + 2] ?? 0];
      const normal = unit(cross(minus(at(3), at(0)), minus(at(6), at(0))));
      const tint = TINTS[(part[i / 9] ?? 0) % TINTS.length] ?? [1, 1, 1];
      for (let k = 0; k < 9; k += 3) {
        normals.set(normal, i + k);
        colours.set(tint, i + k);
      }
    }
    this.fill("at", corners);
    this.fill("normal", normals);
    this.fill("colour", colours);
    this.count = corners.length / 3;
  }

  paint({ turn, middle, zoom }: Camera, radius: number, isCut: boolean): void {
    const { gl, canvas, program } = this;
    const ratio = window.devicePixelRatio || 1;
    const [width, height] = [canvas.clientWidth, canvas.clientHeight];
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(height * ratio);
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    // A matrix is given column by column.
    const columns = [0, 1, 2].flatMap((k) => turn.map((row) => row[k] ?? 0));
    gl.uniformMatrix3fv(gl.getUniformLocation(program, "turn"), false, columns);
    gl.uniform3f(gl.getUniformLocation(program, "middle"), ...middle);
    // Toward the viewer is nearer; the whole ball lies between the planes.
    gl.uniform3f(gl.getUniformLocation(program, "scale"), (2 * zoom) / width, (2 * zoom) / height, -0.4 / radius);
    gl.uniform1f(gl.getUniformLocation(program, "cut"), isCut ? 1 : 0);
    gl.drawArrays(gl.TRIANGLES, 0, this.count);
  }

  dispose(): void {
    this.gl.getExtension("WEBGL_lose_context")?.loseContext();
  }

  private fill(name: string, numbers: Float32Array): void {
    const { gl, program } = this;
    const place = gl.getAttribLocation(program, name);
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, numbers, gl.STATIC_DRAW);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, 3, gl.FLOAT, false, 0, 0);
  }
}
