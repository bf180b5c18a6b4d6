using System.Globalization;

namespace Spurless.Radio.Paths;

/// <summary>The level with which an emitter arrives at a receiving antenna's connector, and where that figure came from.</summary>
public sealed record ReceivedLevel
{
    private ReceivedLevel(double? dbm, bool measured, string how, IReadOnlyList<string> assumed)
    {
        Dbm = dbm;
        IsMeasured = measured;
        How = how;
        Assumed = assumed;
    }

    /// <summary>Level in dBm; null where it is unknown.</summary>
    public double? Dbm { get; }

    /// <summary>Whether it was measured rather than predicted.</summary>
    public bool IsMeasured { get; }

    /// <summary>Where the level came from, or why it is unknown and what would help, in words.</summary>
    public string How { get; }

    /// <summary>What was out of range or assumed, a sentence each.</summary>
    public IReadOnlyList<string> Assumed { get; }

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
            return new ReceivedLevel(
                Quantities.QuantityText.Finite(measured, nameof(measuredDbm)), true, "measured, which wins over any prediction", []);
        }

        if (transmittedDbm is not { } transmitted)
        {
            return new ReceivedLevel(null, false, "unknown: neither level nor power is given; measure the level at the antenna", []);
        }

        PathResult path = PathModels.Predict(named, geometry);
        if (path.ConnectorLossDb is not { } loss)
        {
            return new ReceivedLevel(null, false, "unknown: " + path.Refused, path.Assumed) { Path = path };
        }

        string how = string.Create(CultureInfo.InvariantCulture, $"predicted: {path.How}");
        return new ReceivedLevel(Quantities.QuantityText.Finite(transmitted, nameof(transmittedDbm)) - loss, false, how, path.Assumed)
        {
            Path = path,
        };
    }
}
