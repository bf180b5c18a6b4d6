namespace Spurless.Radio.Quantities;

/// <summary>The gain of an antenna over an isotropic one, in dBi; negative for one that loses.</summary>
public readonly record struct AntennaGain : IComparable<AntennaGain>
{
    /// <summary>Gain of a half-wave dipole over an isotropic antenna, in dB (10 lg 1.64 = 2.15: textbook value, from memory).</summary>
    public const double DipoleDbi = 2.15;

    /// <summary>The values that make sense; what is read lies there.</summary>
    public static SenseRange Range { get; } = new(-100, 100, "from -100 dBi to 100 dBi", OfMagnitude: false);

    private static readonly UnitTable _units = new(
        "an antenna gain", "dBi", "6 dBd", new UnitSymbol("dBd", 0), new UnitSymbol("dBi", 0), new UnitSymbol("dB", 0))
    { Sense = Range };

    private AntennaGain(double dbi) => Dbi = dbi;

    /// <summary>dB over an isotropic antenna.</summary>
    public double Dbi { get; }

    /// <summary>dB over a half-wave dipole.</summary>
    public double Dbd => Dbi - DipoleDbi;

    /// <summary>Makes a gain from dB over an isotropic antenna.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static AntennaGain FromDbi(double dbi) => new(QuantityText.Finite(dbi, nameof(dbi)));

    /// <summary>Reads <c>6 dBd</c> or <c>8.15 dBi</c>; dB alone is an error that asks which.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The gain, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out AntennaGain value, out string problem)
    {
        value = default;
        if (!_units.TryMatch(text, out NumberText number, out UnitSymbol unit, out problem))
        {
            return false;
        }

        if (unit.Symbol == "dB")
        {
            string written = UnitTable.Shown(UnitTable.Normalise(text));
            problem =
                $"{UnitTable.Quoted(text)} does not say over what; write {written}d (over a dipole) or "
                    + $"{written}i (over isotropic, 2.15 dB less gain)";
            return false;
        }

        if (!number.TryToDouble(0, out double read))
        {
            problem = $"{UnitTable.Quoted(text)} is beyond what can be computed with; write an antenna gain like 6 dBd";
            return false;
        }

        double dbi = unit.Symbol == "dBd" ? read + DipoleDbi : read;
        if (!_units.IsSense(dbi, text, out problem))
        {
            return false;
        }

        value = new AntennaGain(dbi);
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not an antenna gain.</exception>
    public static AntennaGain Parse(string text) =>
        TryParse(text, out AntennaGain value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <inheritdoc/>
    public int CompareTo(AntennaGain other) => Dbi.CompareTo(other.Dbi);

    /// <summary>In dBi, the fewest digits that read back to the same value.</summary>
    public override string ToString() => QuantityText.Plain(Dbi, "dBi");
}
