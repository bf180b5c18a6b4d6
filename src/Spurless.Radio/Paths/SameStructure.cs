using Spurless.Numerics;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Paths;

/// <summary>
/// Isolation between the connectors of two antennas on one structure: vertical spacing <c>28 + 40 lg(s / lambda)</c> (half-wave dipoles or
/// collinear antennas one exactly above the other, centre to centre, no gain terms), horizontal spacing
/// <c>22 + 20 lg(s / lambda) - (G1 + G2)</c> (gains in dBi), between the two by the angle of elevation. Formulas seen in a repeater maker's
/// manual, there with gain terms in the vertical one too; an antenna maker's page has it without and caps it at 70 dB, which is taken here.
/// Approximate: 3 to 6 dB at best, and the structure itself can undo more (common practice).
/// </summary>
public sealed class SameStructure : IPathModel
{
    /// <summary>More isolation than this is not believed: the structure and the feedlines couple too. In dB.</summary>
    public const double CapDb = 70;

    /// <summary>From this spacing sideways gain antennas are in each other's far field, in metres: 50 ft (common practice).</summary>
    public const double GainAntennasFromM = 15.24;

    private readonly double _verticalM;
    private readonly double _horizontalM;

    private SameStructure(double verticalM, double horizontalM) => (_verticalM, _horizontalM) = (verticalM, horizontalM);

    /// <inheritdoc/>
    public string Name => "same structure";

    /// <summary>Two antennas on one structure.</summary>
    /// <param name="verticalM">Vertical spacing, centre to centre, in metres, 0 or more.</param>
    /// <param name="horizontalM">Horizontal spacing in metres, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A spacing is not a finite number of 0 or more.</exception>
    public static SameStructure Spaced(double verticalM, double horizontalM) =>
        new(QuantityText.NotNegative(verticalM, nameof(verticalM)), QuantityText.NotNegative(horizontalM, nameof(horizontalM)));

    /// <summary>Isolation of two antennas one above the other.</summary>
    /// <param name="spacingM">Spacing, centre to centre, in metres, above 0.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>28 + 40 lg(s / lambda) in dB, from 0 to 70. 34.86 dB at 146 MHz and 3.048 m.</returns>
    public static double VerticalDb(double spacingM, double frequencyHz) => Limited(28 + 40 * WavesLg(spacingM, frequencyHz));

    /// <summary>Isolation of two antennas beside each other.</summary>
    /// <param name="spacingM">Spacing in metres, above 0.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <param name="gain1Dbi">One antenna's gain towards the other in dBi.</param>
    /// <param name="gain2Dbi">The other's.</param>
    /// <returns>22 + 20 lg(s / lambda) - (G1 + G2) in dB, from 0 to 70. 25.43 dB at 146 MHz, 3.048 m and 0 dBi.</returns>
    public static double HorizontalDb(double spacingM, double frequencyHz, double gain1Dbi, double gain2Dbi) =>
        Limited(
            22 + 20 * WavesLg(spacingM, frequencyHz) - QuantityText.Finite(gain1Dbi, nameof(gain1Dbi))
                - QuantityText.Finite(gain2Dbi, nameof(gain2Dbi)));

    /// <summary>Isolation of two antennas at any spacing.</summary>
    /// <param name="verticalM">Vertical spacing in metres, 0 or more.</param>
    /// <param name="horizontalM">Horizontal spacing in metres, 0 or more; not both 0.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <param name="gain1Dbi">One antenna's gain in dBi.</param>
    /// <param name="gain2Dbi">The other's.</param>
    /// <returns>
    /// Ih + (Iv - Ih) theta / 90 degrees in dB, theta = arctan(vertical / horizontal), each part at its own spacing. 36.95 dB at 150 MHz
    /// for 5 m and 5 m.
    /// </returns>
    public static double SlantDb(double verticalM, double horizontalM, double frequencyHz, double gain1Dbi, double gain2Dbi)
    {
        if (QuantityText.NotNegative(verticalM, nameof(verticalM)) == 0)
        {
            return HorizontalDb(horizontalM, frequencyHz, gain1Dbi, gain2Dbi);
        }

        if (QuantityText.NotNegative(horizontalM, nameof(horizontalM)) == 0)
        {
            return VerticalDb(verticalM, frequencyHz);
        }

        double part = Math.Atan2(verticalM, horizontalM) / (Math.PI / 2);
        double vertical = VerticalDb(verticalM, frequencyHz);
        double horizontal = HorizontalDb(horizontalM, frequencyHz, gain1Dbi, gain2Dbi);
        return horizontal + (vertical - horizontal) * part;
    }

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (geometry.Impossible() is { } impossible)
        {
            return PathResult.None(Name, impossible);
        }

        if (_verticalM == 0 && _horizontalM == 0)
        {
            return PathResult.None(Name, "the antennas stand in one place; give their vertical or horizontal spacing");
        }

        double lambda = geometry.WavelengthM;
        double loss = SlantDb(_verticalM, _horizontalM, geometry.FrequencyHz, geometry.TransmitterGainDbi, geometry.ReceiverGainDbi);
        if (loss <= 0)
        {
            return PathResult.None(Name, "the formula gives no loss at all: too near for it; measure the coupling and give that");
        }

        List<PathRemark> remarks = [new PathRemark.IsolationApproximate()];
        double spacing = Math.Sqrt(_verticalM * _verticalM + _horizontalM * _horizontalM);
        if (spacing < lambda)
        {
            remarks.Add(new PathRemark.SpacingUnderWavelength(spacing, lambda));
        }

        bool gain = geometry.TransmitterGainDbi > AntennaGain.DipoleDbi || geometry.ReceiverGainDbi > AntennaGain.DipoleDbi;
        if (_horizontalM > 0 && _horizontalM < GainAntennasFromM && gain)
        {
            remarks.Add(new PathRemark.GainAntennasNear());
        }

        if (loss >= CapDb)
        {
            remarks.Add(new PathRemark.IsolationCapped());
        }

        return PathResult.BetweenConnectors(Name, new PathBasis.OnOneStructure(_verticalM, _horizontalM), loss, remarks);
    }

    private static double WavesLg(double spacingM, double frequencyHz) => Math.Log10(
        QuantityText.AboveZero(spacingM, nameof(spacingM)) * QuantityText.AboveZero(frequencyHz, nameof(frequencyHz))
            / PhysicalConstants.SpeedOfLight);

    /// <summary>A passive coupling is never a gain, and more than the cap is not believed.</summary>
    private static double Limited(double isolationDb) => Math.Clamp(isolationDb, 0, CapDb);
}
