/** The part of the `quadprog` package that is used here. Arrays count from 1. */
declare module "quadprog" {
  export function solveQP(
    Dmat: number[][],
    dvec: number[],
    Amat: number[][],
    bvec: number[],
    meq?: number,
  ): { solution: number[]; Lagrangian: number[]; message: string };
}
