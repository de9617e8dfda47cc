//! The state at (p, h), (p, s) and (p, T), whatever the phase.
//!
//! The entropy inverse solves the one table column that holds entropy, then looks up the rest once.

use super::bent::Bent;
use super::error::FluidError;
use super::refrigerant::Refrigerant;
use super::saturation::Saturation;
use super::state::State;

/// Column of entropy in both grids.
const ENTROPY: usize = 2;

const HOT: &str = "the table ends at its hottest isotherm";

impl Refrigerant {
    /// The state at absolute pressure and enthalpy.
    ///
    /// # Errors
    /// `AboveRange` beyond the pressure range or the hottest isotherm, `BelowRange` below the
    /// pressure range or the coldest liquid, `NotANumber`.
    pub fn state_ph(&self, pressure_pa: f64, enthalpy_j_kg: f64) -> Result<State, FluidError> {
        self.state_ph_at(&self.saturation_at_pressure(pressure_pa)?, enthalpy_j_kg)
    }

    /// The state at absolute pressure and entropy.
    ///
    /// # Errors
    /// As `state_ph`.
    pub fn state_ps(&self, pressure_pa: f64, entropy_j_kg_k: f64) -> Result<State, FluidError> {
        self.state_ps_at(&self.saturation_at_pressure(pressure_pa)?, entropy_j_kg_k)
    }

    /// `state_ph` at a saturation already looked up (of this refrigerant).
    ///
    /// # Errors
    /// As `state_ph`.
    pub fn state_ph_at(&self, at: &Saturation, enthalpy_j_kg: f64) -> Result<State, FluidError> {
        if enthalpy_j_kg > at.vapor_enthalpy_j_kg {
            if enthalpy_j_kg > at.hot_enthalpy_j_kg {
                return Err(self.out_of_range("enthalpy", "J/kg", enthalpy_j_kg, at.hot_enthalpy_j_kg, HOT));
            }
            Ok(self.vapor(at, enthalpy_j_kg))
        } else if enthalpy_j_kg >= at.liquid_enthalpy_j_kg {
            let quality = (enthalpy_j_kg - at.liquid_enthalpy_j_kg) / at.latent_heat_j_kg();
            Ok(self.two_phase(at, quality, quality.sqrt()))
        } else {
            self.liquid_at_enthalpy(at, enthalpy_j_kg)
        }
    }

    /// `state_ps` at a saturation already looked up (of this refrigerant).
    ///
    /// # Errors
    /// As `state_ph`.
    pub fn state_ps_at(&self, at: &Saturation, entropy_j_kg_k: f64) -> Result<State, FluidError> {
        if entropy_j_kg_k > at.vapor_entropy_j_kg_k {
            self.vapor_at_entropy(at, entropy_j_kg_k)
        } else if entropy_j_kg_k >= at.liquid_entropy_j_kg_k {
            Ok(self.two_phase_at_entropy(at, entropy_j_kg_k))
        } else {
            self.liquid_at_entropy(at, entropy_j_kg_k)
        }
    }

    /// Superheated vapour or subcooled liquid at absolute pressure and temperature.
    ///
    /// # Errors
    /// `TwoPhase` from bubble to dew, where temperature does not fix the state; else as `state_ph`.
    pub fn state_pt(&self, pressure_pa: f64, temperature_k: f64) -> Result<State, FluidError> {
        let at = self.saturation_at_pressure(pressure_pa)?;
        if temperature_k > at.dew_temperature_k {
            self.vapor_at_temperature(&at, temperature_k)
        } else if temperature_k >= at.bubble_temperature_k {
            Err(FluidError::TwoPhase {
                refrigerant: self.designation(),
                pressure_pa,
                temperature_k,
                bubble_temperature_k: at.bubble_temperature_k,
                dew_temperature_k: at.dew_temperature_k,
            })
        } else {
            self.liquid_at_temperature(&at, temperature_k)
        }
    }

    /// Superheated vapour; enthalpy between dew and the hottest isotherm.
    fn vapor(&self, at: &Saturation, enthalpy_j_kg: f64) -> State {
        let span = at.hot_enthalpy_j_kg - at.vapor_enthalpy_j_kg;
        let share = (enthalpy_j_kg - at.vapor_enthalpy_j_kg) / span;
        self.vapor_at_share(at, share, share.sqrt())
    }

    /// Superheated vapour at a share of the way in enthalpy from dew to the hottest isotherm; `root` is
    /// the share's square root.
    fn vapor_at_share(&self, at: &Saturation, share: f64, root: f64) -> State {
        let enthalpy_j_kg = at.vapor_enthalpy_j_kg + share * (at.hot_enthalpy_j_kg - at.vapor_enthalpy_j_kg);
        let [temperature, compressibility, entropy, ln_viscosity] = self.vapor_grid.values(at.position, root);
        let temperature_k = at.dew_temperature_k + share * temperature;
        let compressibility = at.vapor_compressibility + share * compressibility;
        State {
            pressure_pa: at.pressure_pa,
            temperature_k,
            density_kg_m3: self.vapor_density_kg_m3(at.pressure_pa, compressibility, temperature_k),
            enthalpy_j_kg,
            entropy_j_kg_k: at.vapor_entropy_j_kg_k + share * entropy,
            quality: (enthalpy_j_kg - at.liquid_enthalpy_j_kg) / at.latent_heat_j_kg(),
            vapor_mass_fraction_ratio: 1.0,
            ln_viscosity: at.ln_vapor_viscosity + share * ln_viscosity,
        }
    }

    fn vapor_at_entropy(&self, at: &Saturation, entropy_j_kg_k: f64) -> Result<State, FluidError> {
        if entropy_j_kg_k > at.hot_entropy_j_kg_k {
            return Err(self.out_of_range("entropy", "J/(kg K)", entropy_j_kg_k, at.hot_entropy_j_kg_k, HOT));
        }
        let rise = entropy_j_kg_k - at.vapor_entropy_j_kg_k;
        let whole =
            (at.hot_enthalpy_j_kg - at.vapor_enthalpy_j_kg, at.hot_entropy_j_kg_k - at.vapor_entropy_j_kg_k);
        let guess = share_of_entropy(rise, whole, at.dew_temperature_k, self.hot_temperature_k);
        // With share = t^2: t^2 g(t) is the rise in entropy.
        let t =
            self.vapor_grid.line(at.position, ENTROPY).solve(guess.sqrt(), |t, g| Bent::square(t) * g - rise);
        Ok(self.vapor_at_share(at, t * t, t))
    }

    fn vapor_at_temperature(&self, at: &Saturation, temperature_k: f64) -> Result<State, FluidError> {
        if temperature_k > self.hot_temperature_k {
            return Err(self.out_of_range("temperature", "K", temperature_k, self.hot_temperature_k, HOT));
        }
        let (dew, hot) = (at.vapor_enthalpy_j_kg, at.hot_enthalpy_j_kg);
        let (mut low, mut high) = ((dew, at.dew_temperature_k), (hot, self.hot_temperature_k));
        let mut state = self.vapor(at, dew + (hot - dew) * (temperature_k - low.1) / (high.1 - low.1));
        for _ in 0..40 {
            let miss = temperature_k - state.temperature_k;
            if miss.abs() < 1e-10 * temperature_k {
                break;
            }
            // Newton on the chord to the nearer side, which keeps the answer bracketed.
            if miss > 0.0 {
                low = (state.enthalpy_j_kg, state.temperature_k);
            } else {
                high = (state.enthalpy_j_kg, state.temperature_k);
            }
            let slope = self.isobaric_heat_capacity(at, &state);
            let next = state.enthalpy_j_kg + miss * slope;
            let inside = next > low.0 && next < high.0;
            state = self.vapor(at, if inside { next } else { 0.5 * (low.0 + high.0) });
        }
        Ok(state)
    }

    /// `dh/dT` along the isobar by a small difference, J/(kg K).
    fn isobaric_heat_capacity(&self, at: &Saturation, state: &State) -> f64 {
        let step = 1e-4 * (at.hot_enthalpy_j_kg - at.vapor_enthalpy_j_kg);
        let side = if state.enthalpy_j_kg + step > at.hot_enthalpy_j_kg { -step } else { step };
        side / (self.vapor(at, state.enthalpy_j_kg + side).temperature_k - state.temperature_k)
    }

    /// Between bubble and dew, at `quality` 0..=1 counted in enthalpy; `root` is its square root.
    fn two_phase(&self, at: &Saturation, quality: f64, root: f64) -> State {
        let bend = quality * (1.0 - quality);
        let [temperature, volume, entropy, vapor] = match &self.two_phase_grid {
            Some(grid) => grid.values(at.position, root),
            None => [0.0; 4],
        };
        let (liquid_volume, vapor_volume) = (1.0 / at.liquid_density_kg_m3, 1.0 / at.vapor_density_kg_m3);
        let volume_m3_kg = liquid_volume + (quality + bend * volume) * (vapor_volume - liquid_volume);
        State {
            pressure_pa: at.pressure_pa,
            temperature_k: at.bubble_temperature_k + quality * at.glide_k() + bend * temperature,
            density_kg_m3: 1.0 / volume_m3_kg,
            enthalpy_j_kg: at.liquid_enthalpy_j_kg + quality * at.latent_heat_j_kg(),
            entropy_j_kg_k: at.liquid_entropy_j_kg_k
                + quality * (at.vapor_entropy_j_kg_k - at.liquid_entropy_j_kg_k)
                + bend * entropy,
            quality,
            vapor_mass_fraction_ratio: (quality + bend * vapor).clamp(0.0, 1.0),
            ln_viscosity: f64::NAN,
        }
    }

    fn two_phase_at_entropy(&self, at: &Saturation, entropy_j_kg_k: f64) -> State {
        let rise = entropy_j_kg_k - at.liquid_entropy_j_kg_k;
        let span = at.vapor_entropy_j_kg_k - at.liquid_entropy_j_kg_k;
        let Some(grid) = &self.two_phase_grid else {
            let quality = rise / span;
            return self.two_phase(at, quality, quality.sqrt());
        };
        let whole = (at.latent_heat_j_kg(), span);
        let guess = share_of_entropy(rise, whole, at.bubble_temperature_k, at.dew_temperature_k);
        // With q = r^2: q span + q (1 - q) g(r) is the rise in entropy.
        let root = grid.line(at.position, ENTROPY).solve(guess.max(0.0).sqrt(), |r, g| {
            let q = Bent::square(r);
            q * ((q * -1.0 + 1.0) * g + span) - rise
        });
        self.two_phase(at, root * root, root)
    }
}

/// Share of a rise in enthalpy that goes with a rise in entropy, nearly.
///
/// A cubic through both ends with the slopes that `dh = T ds` gives there. `whole` is the
/// (enthalpy, entropy) of the full rise.
fn share_of_entropy(rise: f64, whole: (f64, f64), first_temperature_k: f64, last_temperature_k: f64) -> f64 {
    let (enthalpy, entropy) = whole;
    let x = rise / entropy;
    let scale = entropy / enthalpy;
    let (first, last) = (first_temperature_k * scale, last_temperature_k * scale);
    x * (first + x * ((3.0 - 2.0 * first - last) + x * (first + last - 2.0)))
}
