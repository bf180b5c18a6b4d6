namespace Spurless.Radio.Terrain;

/// <summary>
/// Recommendation ITU-R P.1812, "A path-specific propagation prediction method for point-to-area terrestrial services": diffraction over
/// the profile, ducting, troposcatter and their combination. Formulas from memory (the edition that adds clutter to the profile, -5 and
/// later); every step but those over sea, with vertical polarisation and of location variability is held to nine results of the reference
/// implementation by their equation numbers, see docs/method/paths.md.
/// </summary>
public static class PathSpecificModel
{
    /// <summary>Shortest distance of the model in metres.</summary>
    public const double ShortestM = 250;

    /// <summary>Longest distance of the model in metres.</summary>
    public const double LongestM = 3_000_000;

    /// <summary>Lowest frequency of the model in hertz.</summary>
    public const double LowestHz = 30e6;

    /// <summary>Highest frequency of the model in hertz.</summary>
    public const double HighestHz = 6e9;

    private const double LeastHeightM = 1;
    private const double MostHeightM = 3000;

    /// <summary>What lies outside the model's range, the frequency before the length and the heights; null where nothing does.</summary>
    /// <param name="lengthM">Length of the path in metres.</param>
    /// <param name="conditions">The conditions.</param>
    public static RangeExcess? OutsideRange(double lengthM, TerrainConditions conditions)
    {
        ArgumentNullException.ThrowIfNull(conditions);
        double f = conditions.FrequencyHz;
        if (f is < LowestHz or > HighestHz)
        {
            return new RangeExcess(RangeFigure.Frequency, f);
        }

        if (lengthM is < ShortestM or > LongestM)
        {
            return new RangeExcess(RangeFigure.Length, lengthM);
        }

        return conditions.TransmitterHeightM is < LeastHeightM or > MostHeightM
            ? new RangeExcess(RangeFigure.TransmitterHeight, conditions.TransmitterHeightM)
            : conditions.ReceiverHeightM is < LeastHeightM or > MostHeightM
                ? new RangeExcess(RangeFigure.ReceiverHeight, conditions.ReceiverHeightM)
                : null;
    }

    /// <summary>Predicts the loss.</summary>
    /// <param name="profile">The ground.</param>
    /// <param name="conditions">The conditions; possible (<see cref="TerrainConditions.Impossible"/>) and in range (<see
    /// cref="OutsideRange"/>).</param>
    /// <returns>
    /// The loss and its parts. Worked value: the reference path of 10 km over a ridge at 95.3 MHz, 50 % of time, 120.4909 dB.
    /// </returns>
    /// <exception cref="ArgumentException">The conditions are impossible or out of range.</exception>
    public static TerrainLoss Predict(TerrainProfile profile, TerrainConditions conditions)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(conditions);
        if (conditions.Impossible() is { } problem)
        {
            throw new ArgumentException(problem, nameof(conditions));
        }

        if (OutsideRange(profile.LengthM, conditions) is { } excess)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"{excess.Figure} of {excess.Value} is outside ITU-R P.1812"), nameof(conditions));
        }

        double ghz = conditions.FrequencyHz / 1e9;
        double p = conditions.TimePercent;
        double length = profile.DistanceKm[^1];
        PathClimate climate = PathClimate.Of(profile, conditions);
        PathAnalysis path = PathAnalysis.Of(profile, conditions, climate.MedianRadiusKm);
        double beta0 = climate.DuctingPercent;

        // Line of sight (section 4.2).
        double rise = (path.TransmitterM - path.ReceiverM) / 1000;
        double free = 92.4 + 20 * Math.Log10(ghz) + 20 * Math.Log10(Math.Sqrt(length * length + rise * rise));
        double focusing = 2.6 * (1 - Math.Exp(-0.1 * (path.TransmitterHorizonKm + path.ReceiverHorizonKm)));
        double free0p = free + focusing * Math.Log10(p / 50);
        double free0b = free + focusing * Math.Log10(beta0 / 50);

        // Diffraction (section 4.3): between the median and the ducting earth by the share of time.
        DeltaBullington median = DeltaBullington.Of(profile, conditions, path, climate.SeaShare, climate.MedianRadiusKm);
        DeltaBullington beta = DeltaBullington.Of(profile, conditions, path, climate.SeaShare, PathClimate.DuctingRadiusKm);
        double fi = p <= beta0 ? 1 : NormalQuantile.Exceeded(p / 100) / NormalQuantile.Exceeded(beta0 / 100);
        double diffraction = median.LossDb + (beta.LossDb - median.LossDb) * fi;
        double byDiffraction = free0p + diffraction;

        double scatter = Troposcatter.LossDb(length, ghz, path.AngularDistanceMrad, conditions.Refractivity, p);
        double ducting = Ducting.LossDb(length, conditions, climate, path);

        // Combination (section 4.6).
        double fj = 1 - 0.5 * (1 + Math.Tanh(3 * 0.8 * (path.AngularDistanceMrad - 0.3) / 0.3));
        double fk = 1 - 0.5 * (1 + Math.Tanh(3 * 0.5 * (length - 20) / 20));
        double overLand = (1 - climate.SeaShare) * diffraction;
        double medianByDiffraction = free + median.LossDb;
        double leastSea = p < beta0
            ? free0p + overLand
            : medianByDiffraction + (free0b + overLand - medianByDiffraction) * fi;
        double leastDuct = SoftLeastOf(ducting, free0p);
        double ducted = leastDuct > byDiffraction ? byDiffraction : leastDuct + (byDiffraction - leastDuct) * fk;
        double modified = ducted + (leastSea - ducted) * fj;
        double combined = -5 * Math.Log10(Math.Pow(10, -0.2 * scatter) + Math.Pow(10, -0.2 * modified));

        double location = conditions.LocationPercent == 50 ? 0 : -NormalQuantile.Exceeded(conditions.LocationPercent / 100)
            * LocationVariability.SigmaDb(
                conditions.FrequencyHz, conditions.AreaM, conditions.ReceiverHeightM, conditions.ReceiverClutterM);

        return new TerrainLoss
        {
            BasicLossDb = Math.Max(free0p, combined + location),
            Mechanism = scatter < modified ? TerrainMechanism.Troposcatter
                : (byDiffraction - ducted) * (1 - fj) > 1 ? TerrainMechanism.Ducting
                : diffraction > 1 ? TerrainMechanism.Diffraction
                : TerrainMechanism.LineOfSight,
            FreeSpaceDb = free,
            DiffractionDb = diffraction,
            ByDiffractionDb = byDiffraction,
            DuctingDb = ducting,
            TroposcatterDb = scatter,
            MedianRadiusKm = climate.MedianRadiusKm,
            Steps = new TerrainSteps
            {
                Climate = climate,
                MedianByDiffractionDb = medianByDiffraction,
                Path = path,
                Median = median,
                Beta = beta,
                TimeWeight = fi,
                AngleWeight = fj,
                DistanceWeight = fk,
                FreeSpaceForTimeDb = free0p,
                FreeSpaceForBetaDb = free0b,
                LeastOverSeaDb = leastSea,
                LeastByDuctingDb = leastDuct,
                DiffractionAndDuctingDb = ducted,
                ModifiedDb = modified,
                MedianOfPlacesDb = combined,
            },
        };
    }

    /// <summary>eta ln(exp(a / eta) + exp(b / eta)) with eta = 2.5 (eq. 60), kept from overflowing.</summary>
    private static double SoftLeastOf(double a, double b)
    {
        const double eta = 2.5;
        double most = Math.Max(a, b);
        return most + eta * Math.Log(Math.Exp((a - most) / eta) + Math.Exp((b - most) / eta));
    }
}
