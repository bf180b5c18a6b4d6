namespace Spurless.Radio.Paths;

/// <summary>The level with which an emitter arrives at a receiving antenna's connector, and where that figure came from.</summary>
public sealed record ReceivedLevel
{
    private ReceivedLevel(double? dbm, bool measured)
    {
        Dbm = dbm;
        IsMeasured = measured;
    }

    /// <summary>Level in dBm; null where it is unknown.</summary>
    public double? Dbm { get; }

    /// <summary>Whether it was measured rather than predicted.</summary>
    public bool IsMeasured { get; }

    /// <summary>The path's prediction; null where the level was measured or no power is known.</summary>
    public PathResult? Path { get; private init; }

    /// <summary>Takes the measured level where there is one, else predicts.</summary>
    /// <param name="measuredDbm">A level measured at the receiving antenna's connector in dBm, or null. It always wins.</param>
    /// <param name="transmittedDbm">
    /// Power at the transmitting antenna's connector in dBm, or null. For a given eirp that eirp, with a transmitting gain of 0 dBi in the
    /// geometry.
    /// </param>
    /// <param name="named">The path that the user named, or null.</param>
    /// <param name="geometry">Where the antennas stand.</param>
    /// <returns>The level, or why there is none.</returns>
    public static ReceivedLevel Of(double? measuredDbm, double? transmittedDbm, IPathModel? named, PathGeometry geometry)
    {
        if (measuredDbm is { } measured)
        {
            return new ReceivedLevel(Quantities.QuantityText.Finite(measured, nameof(measuredDbm)), true);
        }

        if (transmittedDbm is not { } transmitted)
        {
            return new ReceivedLevel(null, false);
        }

        PathResult path = PathModels.Predict(named, geometry);
        return new ReceivedLevel(Quantities.QuantityText.Finite(transmitted, nameof(transmittedDbm)) - path.ConnectorLossDb, false)
        {
            Path = path,
        };
    }
}
