using System.Globalization;
using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;

namespace Spurless.Drawing.Words;

/// <summary>What a predicted loss rests on and what stands beside it, without a capital and a full stop.</summary>
public static class PathNoteWords
{
    /// <summary>The model and its figures, and why it was taken.</summary>
    public static string Of(PathBasis basis, PathChoice choice) => Of(basis) + Because(choice);

    /// <summary>The model and its figures.</summary>
    public static string Of(PathBasis basis) => basis switch
    {
        PathBasis.InFreeSpace b => $"free space (ITU-R P.525) over {Km(b.DistanceM)} km",
        PathBasis.OverPlaneEarth b => FormattableString.Invariant(
            $"plane earth over {Km(b.DistanceM)} km, heights {b.TransmitterM:0.#} and {b.ReceiverM:0.#} m, ")
                + $"beyond the break point of {Km(b.BreakPointM)} km",
        PathBasis.WithinBreakPoint b => WithinBreakPoint(b.BreakPointM, b.DistanceM),
        PathBasis.ByHata b => FormattableString.Invariant(
            $"{b.Model} (Okumura-Hata, ITU-R P.529) over {Km(b.DistanceM)} km, heights {b.HigherM:0.#} and {b.LowerM:0.#} m"),
        PathBasis.OverOneEdge b => FormattableString.Invariant(
            $"free space over {Km(b.DistanceM)} km and {b.EdgeLossDb:0.0} dB for one knife edge of v = {b.V:0.00} (ITU-R P.526)"),
        PathBasis.OnOneStructure b => FormattableString.Invariant(
            $"antennas on one structure, {b.VerticalM:0.##} m apart vertically and {b.HorizontalM:0.##} m horizontally"),
        TerrainBasis.OverGround b => $"over the ground (ITU-R P.1812), {Km(b.LengthM)} km, {Way(b.Mechanism)}: "
            + $"{Figures.Db(b.OverFreeSpaceDb, Typography.Plain)} dB over free space",
        TerrainBasis.OutsideModel b => $"over {Km(b.LengthM)} km of known ground, but {Of(b.Remark)}",
        _ => throw new ArgumentOutOfRangeException(nameof(basis), basis.GetType().Name, "has no words"),
    };

    /// <summary>A remark of a path model.</summary>
    public static string Of(PathRemark remark) => remark switch
    {
        PathRemark.SizesNotKnown => "the antennas' sizes are not known: a long antenna may not be in the far field this near",
        PathRemark.BeyondHorizon r => FormattableString.Invariant(
            $"{r.DistanceM / 1000:0.#} km is beyond the radio horizon of {r.HorizonM / 1000:0.#} km over level ")
                + "ground: the loss is likely higher, unless hills lift an antenna",
        PathRemark.WithinBreakPoint r => WithinBreakPoint(r.BreakPointM, r.DistanceM),
        PathRemark.OutsideFit r => OutsideFit(r),
        PathRemark.LessThanFreeSpace r => $"{r.Model} gave less than free space; free space taken",
        PathRemark.IsolationApproximate =>
            "isolation on one structure is approximate (common practice): measure the coupling where it decides",
        PathRemark.SpacingUnderWavelength r => FormattableString.Invariant(
            $"a spacing of {r.SpacingM:0.##} m is under one wavelength ({r.WavelengthM:0.##} m): the formula does not hold this near"),
        PathRemark.GainAntennasNear => FormattableString.Invariant(
            $"gain antennas less than {SameStructure.GainAntennasFromM} m (50 ft) apart sideways are not in each other's ")
                + "far field: the isolation may be several dB off",
        PathRemark.IsolationCapped => FormattableString.Invariant(
            $"capped at {SameStructure.CapDb} dB: beyond that the structure and the feedlines couple"),
        PathRemark.GroundNotKnown r =>
            $"{Lacking(r.HeightsKnown)} of both ends are not all known: in free space it is the most that it can be",
        TerrainRemark.OutsideModel r => $"{Outside(r.Excess)}; {Taken(r)}",
        TerrainRemark.VoidsFilled r => FormattableString.Invariant(
            $"{r.Filled} of {r.Points} points had no height in the elevation files and were filled from their neighbours, ")
                + FormattableString.Invariant(
                    $"the longest stretch {r.LongestM:0} m{(r.EndFilled ? ", an antenna's foot among them" : "")}"),
        TerrainRemark.GroundDiffers r => FormattableString.Invariant(
            $"the {(r.OfSite ? "site file" : "emitter's entry")} puts the ground at {r.StatedM:0} m, ")
                + FormattableString.Invariant($"the elevation file at {r.FileM:0} m, which is taken: check the coordinates"),
        _ => throw new ArgumentOutOfRangeException(nameof(remark), remark.GetType().Name, "has no words"),
    };

    /// <summary>A mechanism as files name it.</summary>
    public static string Name(TerrainMechanism mechanism) => mechanism switch
    {
        TerrainMechanism.LineOfSight => "line of sight",
        TerrainMechanism.Diffraction => "diffraction",
        TerrainMechanism.Ducting => "ducting",
        TerrainMechanism.Troposcatter => "troposcatter",
        TerrainMechanism.FreeSpace => FreeSpace.Model.Name,
        _ => PlaneEarth.Model.Name,
    };

    /// <summary>A mechanism as it stands in a sentence: <c>mostly by diffraction</c>, <c>in line of sight</c>.</summary>
    public static string Way(TerrainMechanism mechanism) =>
        mechanism == TerrainMechanism.LineOfSight ? "in line of sight" : $"mostly by {Name(mechanism)}";

    private static string Because(PathChoice choice) => choice switch
    {
        PathChoice.None => "",
        PathChoice.AsGiven => ", as given",
        PathChoice.GroundBetweenKnown => ", chosen because the ground between is known",
        PathChoice.HeightsAndGroundsNotKnown => $", chosen because {Lacking(heightsKnown: false)} of both ends are not all known",
        PathChoice.GroundsNotKnown => $", chosen because {Lacking(heightsKnown: true)} of both ends are not all known",
        PathChoice.EndsKnown => ", chosen because heights and grounds of both ends are known",
        _ => ", chosen because it is nearer than the break point of plane earth",
    };

    private static string Lacking(bool heightsKnown) => heightsKnown ? "grounds" : "heights and grounds";

    private static string WithinBreakPoint(double breakPointM, double distanceM) =>
        $"plane earth holds beyond its break point of {Km(breakPointM)} km; free space taken over {Km(distanceM)} km";

    private static string OutsideFit(PathRemark.OutsideFit r)
    {
        (string what, string unit, double per) = r.Figure switch
        {
            PathFigure.Frequency => ("frequency", "MHz", 1e6),
            PathFigure.Distance => ("distance", "km", 1e3),
            PathFigure.HigherAntenna => ("height of the higher antenna", "m", 1.0),
            _ => ("height of the lower antenna", "m", 1.0),
        };
        return FormattableString.Invariant($"{r.Model}: {what} {r.Value / per:0.###} {unit} is outside the model's ")
            + FormattableString.Invariant($"{r.From / per:0.###} to {r.To / per:0.###} {unit}");
    }

    private static string Outside(RangeExcess excess) => excess.Figure switch
    {
        RangeFigure.Frequency =>
            $"{MegahertzText.Of(excess.Value, 0, 6)} MHz is outside ITU-R P.1812, which holds from 30 MHz to 6 GHz",
        RangeFigure.Length => $"{Km(excess.Value)} km is outside ITU-R P.1812, which holds from 0.25 to 3,000 km",
        _ => FormattableString.Invariant(
            $"{excess.Value:0.##} m of the {(excess.Figure == RangeFigure.TransmitterHeight ? "transmitting" : "receiving")} antenna ")
                + "is outside ITU-R P.1812, which holds from 1 to 3,000 m over ground",
    };

    private static string Taken(TerrainRemark.OutsideModel remark) => remark.Taken switch
    {
        SimplePath.Edges => FormattableString.Invariant(
            $"free space and {remark.EdgesLossDb:0.0} dB for what stands in the way (ITU-R P.526) taken"),
        SimplePath.PlaneEarth => "plane earth taken",
        _ => "free space taken, the least it can lose",
    };

    private static string Km(double metres) => (metres / 1000).ToString("0.###", CultureInfo.InvariantCulture);
}
