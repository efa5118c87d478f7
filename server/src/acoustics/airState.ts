/** What the wave equation needs to know of the air. SI units. Made by `airState()` in air.ts. */
export interface AirState {
  /** Speed of sound in free air, m/s. */
  readonly soundSpeed: number;
  /** Density, kg/m³. */
  readonly density: number;
  /** Dynamic viscosity, Pa s. */
  readonly viscosity: number;
  /** Ratio of specific heats. */
  readonly heatCapacityRatio: number;
  readonly prandtl: number;
  /** False: no friction or heat exchange at the walls, for comparison with textbooks. */
  readonly losses: boolean;
}

/** The conditions the maker states. */
export interface AirConditions {
  /** °C, the unit of every published formula used here. */
  readonly temperature: number;
  /** Relative humidity, 0…1. */
  readonly humidity: number;
  /** Mole fraction of carbon dioxide, 0…1 (outdoor air 0.0004). */
  readonly carbonDioxide: number;
  /** Pa. */
  readonly pressure: number;
  readonly losses: boolean;
  /** Overrides the computed speed of sound, m/s. */
  readonly soundSpeed?: number;
}
