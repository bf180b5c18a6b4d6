namespace Spurless.Radio.Paths;

/// <summary>
/// The predicted loss of a path, or why it cannot be predicted. Losses are positive dB.
/// </summary>
public sealed record PathResult
{
    private PathResult(string model, PathBasis? basis, IReadOnlyList<PathRemark> remarks)
    {
        Model = model;
        Basis = basis;
        Remarks = remarks;
    }

    /// <summary>The model's name.</summary>
    public string Model { get; }

    /// <summary>What the loss rests on; null where the prediction was refused.</summary>
    public PathBasis? Basis { get; }

    /// <summary>Why the model was taken.</summary>
    public PathChoice Choice { get; internal init; }

    /// <summary>What stands outside the model's range or had to be assumed.</summary>
    public IReadOnlyList<PathRemark> Remarks { get; internal init; }

    /// <summary>
    /// Loss from the transmitting antenna's connector to the receiving one's, antenna gains counted in, in dB: what a level is computed
    /// with. Null where the prediction was refused.
    /// </summary>
    public double? ConnectorLossDb { get; private init; }

    /// <summary>
    /// Basic transmission loss between isotropic antennas in dB. Null where the prediction was refused, and for antennas on one structure,
    /// whose coupling does not split into a path and two gains.
    /// </summary>
    public double? BasicLossDb { get; private init; }

    /// <summary>One standard deviation of the loss in dB where the model knows its own; null where it does not.</summary>
    public double? SigmaDb { get; internal init; }

    /// <summary>Why there is no prediction and what would help, <c>what; what to give instead</c>; null where there is one.</summary>
    public string? Refused { get; private init; }

    /// <summary>A loss between isotropic antennas, to which the gains of the geometry are added.</summary>
    /// <remarks>
    /// No passive path gains: gains that outweigh it mean that the antennas are too near for the model, which is refused.
    /// </remarks>
    internal static PathResult Basic(
        string model, PathBasis basis, PathGeometry geometry, double basicLossDb, IReadOnlyList<PathRemark> remarks)
    {
        double connectors = basicLossDb - geometry.TransmitterGainDbi - geometry.ReceiverGainDbi;
        return connectors < 0
            ? None(
                model,
                $"{model} gives a gain here, since the antennas' gains outweigh the path: too near for it; give the measured level")
            : new(model, basis, remarks) { BasicLossDb = basicLossDb, ConnectorLossDb = connectors };
    }

    /// <summary>A loss between connectors that has the antennas in it.</summary>
    internal static PathResult BetweenConnectors(string model, PathBasis basis, double lossDb, IReadOnlyList<PathRemark> remarks) =>
        new(model, basis, remarks) { ConnectorLossDb = lossDb };

    /// <summary>No prediction.</summary>
    internal static PathResult None(string model, string refused) => new(model, null, []) { Refused = refused };
}
