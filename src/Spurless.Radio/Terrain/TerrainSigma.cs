namespace Spurless.Radio.Terrain;

/// <summary>
/// One standard deviation of a level predicted over the ground, and what it is made of, in dB.
/// </summary>
/// <param name="LocationDb">From place to place about the receiving antenna (<see cref="LocationVariability"/>).</param>
/// <param name="DataDb">By the heights: half the difference of the losses with everything between the antennas higher and lower by their
/// error.</param>
/// <param name="ModelDb">
/// What even right heights leave: 3 dB on a clear line, rising to 8 dB with the diffraction loss (reached at 20 dB), 8 dB by duct or
/// scatter. Common practice, from memory: predictions over the ground differ from measured levels by 6 to 10 dB, on clear lines by less.
/// </param>
public readonly record struct TerrainSigma(double LocationDb, double DataDb, double ModelDb)
{
    /// <summary>The root of the sum of squares.</summary>
    public double TotalDb => Math.Sqrt(LocationDb * LocationDb + DataDb * DataDb + ModelDb * ModelDb);

    /// <summary>Finds it.</summary>
    /// <param name="profile">The ground.</param>
    /// <param name="conditions">The conditions, in the model's range.</param>
    /// <param name="loss">What was predicted.</param>
    /// <param name="heightErrorM">One standard deviation of the heights between the antennas against those under them, in metres.</param>
    public static TerrainSigma Of(TerrainProfile profile, TerrainConditions conditions, TerrainLoss loss, double heightErrorM)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(loss);
        double between = BetweenPointsM(profile);
        double error = Math.Sqrt(heightErrorM * heightErrorM + between * between);
        double higher = PathSpecificModel.Predict(profile.Raised(error), conditions).BasicLossDb;
        double lower = PathSpecificModel.Predict(profile.Raised(-error), conditions).BasicLossDb;
        double model = loss.Mechanism is TerrainMechanism.Ducting or TerrainMechanism.Troposcatter
            ? 8
            : 3 + 5 * Math.Clamp(loss.DiffractionDb / 20, 0, 1);
        return new TerrainSigma(
            LocationVariability.SigmaDb(conditions.FrequencyHz, conditions.AreaM, conditions.ReceiverHeightM, conditions.ReceiverClutterM),
            Math.Abs(higher - lower) / 2,
            model);
    }

    /// <summary>
    /// How far the ground may stand from the straight line between two points of the profile: the root mean square of h'' (step)^2 / 8, the
    /// bound of linear interpolation, with h'' from the profile itself.
    /// </summary>
    internal static double BetweenPointsM(TerrainProfile profile)
    {
        ReadOnlySpan<double> d = profile.DistanceKm;
        ReadOnlySpan<double> h = profile.GroundM;
        double sum = 0;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double before = d[i] - d[i - 1];
            double after = d[i + 1] - d[i];
            double bend = 2 * ((h[i + 1] - h[i]) / after - (h[i] - h[i - 1]) / before) / (before + after);
            double step = Math.Max(before, after);
            double off = bend * step * step / 8;
            sum += off * off;
        }

        return Math.Sqrt(sum / (d.Length - 2));
    }
}
