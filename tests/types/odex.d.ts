/** What of odex (adaptive extrapolation after Hairer, Norsett and Wanner) the tests use; its own types are not strict. */
export class Solver {
  constructor(n: number)
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  solve(
    derivative: (x: number, y: number[]) => number[],
    x: number,
    y0: number[],
    xEnd: number,
    solOut?: (n: number, x0: number, x1: number, y: number[]) => unknown,
  ): { y: number[] }
}
