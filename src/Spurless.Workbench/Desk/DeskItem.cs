using System.Globalization;

namespace Spurless.Workbench.Desk;

/// <summary>One thing that can be changed at the desk: a switch (0 is out, 1 is in) or a number.</summary>
public sealed record DeskItem
{
    /// <summary>What it is known by in settings and addresses: <c>chain.1</c>, <c>part.filters/three-tank.circuit.yaml.C3</c>.</summary>
    public required string Id { get; init; }

    /// <summary>Its name beside its stage: <c>IIP3</c>, <c>C3</c>.</summary>
    public required string Name { get; init; }

    /// <summary>A label that states what moving it does, complete by itself.</summary>
    public required string Effect { get; init; }

    /// <summary>The unit of all its values; empty for a plain number and for a switch.</summary>
    public string Unit { get; init; } = "";

    /// <summary>Whether it is a switch.</summary>
    public bool IsSwitch { get; init; }

    /// <summary>Its value in the file; for one that does not stand there, what the study counts with.</summary>
    public required double FileValue { get; init; }

    /// <summary>Whether the file states it.</summary>
    public bool IsStated { get; init; } = true;

    /// <summary>Least value that a slider offers.</summary>
    public double Low { get; init; }

    /// <summary>Greatest value that a slider offers.</summary>
    public double High { get; init; } = 1;

    /// <summary>A slider's step, a power of ten.</summary>
    public double Step { get; init; } = 1;

    /// <summary>Decimals of its values.</summary>
    public int Decimals { get; init; }

    /// <summary>Values with names; may be empty.</summary>
    public IReadOnlyList<DeskPreset> Presets { get; init; } = [];

    internal DeskTarget Target { get; init; } = null!;

    /// <summary>So many decimals of a value can be written into a file.</summary>
    internal const int MostDecimals = 12;

    /// <summary>A value with its unit, as it is shown and written: <c>1.52 pF</c>.</summary>
    public string Text(double value) => Unit.Length == 0 ? Number(value) : $"{Number(value)} {Unit}";

    /// <summary>A value without its unit.</summary>
    public string Number(double value) =>
        // A rounded zero carries no minus.
        (Math.Round(value, Decimals) + 0.0).ToString("F" + Decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>A value as it is written into a file: without zeros that say nothing.</summary>
    internal string Written(double value)
    {
        string number = value.ToString("0.############", CultureInfo.InvariantCulture);
        return Unit.Length == 0 ? number : $"{number} {Unit}";
    }

    /// <summary>Whether a value may stand there.</summary>
    internal bool Takes(double value) => Target.Allows(Written(value));

    /// <summary>The value of its grid that lies nearest, within its range.</summary>
    public double Snapped(double value) => Math.Round(Math.Clamp(value, Low, High), Decimals);

    /// <summary>Reads what was typed: a number of this item's unit.</summary>
    /// <param name="text">The text; any unit of its quantity, without one that of the item.</param>
    /// <param name="value">The value where it is right; it may lie outside the slider's range, but not on the wrong side of
    /// nothing.</param>
    /// <param name="problem">What was found; what to write instead.</param>
    public bool TryRead(string text, out double value, out string problem)
    {
        ArgumentNullException.ThrowIfNull(text);
        string clean = text.Trim().Replace('\u2212', '-');

        // With a prefix first: 'kohm' ends in 'ohm' too.
        (string number, int shift) = DeskUnits.Stripped(clean, Unit);
        clean = number == clean && Unit.Length > 0 && clean.EndsWith(Unit, StringComparison.Ordinal)
            ? clean[..^Unit.Length].TrimEnd()
            : number;
        bool read = double.TryParse(
            clean, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
        value *= Math.Pow(10, shift);
        problem = read ? "" : $"'{Files.Quote.Short(text)}' is no value here; write one such as {Text(FileValue)}";
        if (read)
        {
            value = Math.Round(value, Decimals);
            if (!Takes(value))
            {
                problem = $"{Text(value)} cannot be; write a value such as {Text(FileValue)}";
                return false;
            }
        }

        return read;
    }
}
