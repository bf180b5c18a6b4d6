using System.Globalization;
using System.Numerics;

namespace Spurless.Radio.Quantities;

/// <summary>A complex impedance in ohms; positive imaginary part is inductive (time convention e^{+jwt}).</summary>
public readonly record struct ComplexImpedance
{
    private static readonly UnitTable _ohms = new("an impedance", "ohm", "30+20j ohm", UnitTable.Prefixed("ohm", -3, 6));

    private ComplexImpedance(Complex ohms) => Ohms = ohms;

    /// <summary>Ohms.</summary>
    public Complex Ohms { get; }

    /// <summary>Makes an impedance from ohms.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A part is not a finite number.</exception>
    public static ComplexImpedance FromOhms(Complex ohms) =>
        Complex.IsFinite(ohms) ? new(ohms) : throw new ArgumentOutOfRangeException(nameof(ohms), ohms, "must be finite");

    /// <summary>
    /// Reads <c>30+20j ohm</c>, <c>30-20j ohm</c>, <c>30+j20 ohm</c>, <c>50 ohm</c>, <c>-12j ohm</c> (i for j is accepted).
    /// </summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The impedance, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out ComplexImpedance value, out string problem)
    {
        value = default;
        string clean = UnitTable.Normalise((text ?? "").Trim());
        int letters = clean.LastIndexOf("ohm", StringComparison.Ordinal);
        bool prefixed = letters > 0 && clean[letters - 1] is 'm' or 'k' or 'M';
        int unitFrom = letters < 0 ? clean.Length : letters - (prefixed ? 1 : 0);
        ReadOnlySpan<char> body = clean.AsSpan(0, unitFrom).TrimEnd();
        if (!TrySplit(body, out NumberText real, out NumberText imaginary))
        {
            // Where not even a number stands, the unit table has the better words (nothing, not finite ...).
            problem = NumberText.TryRead(clean, out _, out _) || _ohms.TryMatch(text, out _, out _, out string found)
                ? NotOne(text)
                : found;
            return false;
        }

        // The unit with a number before it, so that its own messages serve here too.
        if (!_ohms.TryMatch(string.Concat("1 ", clean.AsSpan(unitFrom)), out _, out UnitSymbol unit, out _))
        {
            problem = letters < 0 ? $"{UnitTable.Quoted(text)} has no unit; write {UnitTable.Shown(body.ToString())} ohm" : NotOne(text);
            return false;
        }

        if (!real.TryToDouble(unit.PowerOfTen, out double re) || !imaginary.TryToDouble(unit.PowerOfTen, out double im))
        {
            problem = $"{UnitTable.Quoted(text)} is beyond what can be computed with; write an impedance like 30+20j ohm";
            return false;
        }

        if (!Resistance.Range.Contains(re) || !Resistance.Range.Contains(im))
        {
            problem = Resistance.Range.Problem(text, "an impedance with parts", "30+20j ohm");
            return false;
        }

        value = new ComplexImpedance(new Complex(re, im));
        problem = "";
        return true;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not an impedance.</exception>
    public static ComplexImpedance Parse(string text) =>
        TryParse(text, out ComplexImpedance value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary><c>30+20j ohm</c>; the fewest digits that read back to the same value.</summary>
    public override string ToString() => Ohms.Imaginary == 0
        ? QuantityText.Plain(Ohms.Real, "ohm")
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{QuantityText.Shortest(Ohms.Real)}{(Ohms.Imaginary < 0 ? "-" : "+")}{QuantityText.Shortest(Math.Abs(Ohms.Imaginary))}j ohm");

    private static string NotOne(string? text) => $"{UnitTable.Quoted(text)} is not an impedance; write it like 30+20j ohm or 50 ohm";

    /// <summary>Takes a, a+bj, a+jb, bj or jb apart.</summary>
    private static bool TrySplit(ReadOnlySpan<char> text, out NumberText real, out NumberText imaginary)
    {
        real = new NumberText(false, "", 0);
        imaginary = real;
        if (TryImaginary(text, out imaginary))
        {
            return true;
        }

        imaginary = real;
        if (!NumberText.TryRead(text, out NumberText first, out int length))
        {
            return false;
        }

        real = first;
        ReadOnlySpan<char> rest = text[length..].TrimStart();
        return rest.IsEmpty || (rest[0] is '+' or '-' or '\u2212' && TryImaginary(rest, out imaginary));
    }

    private static bool TryImaginary(ReadOnlySpan<char> text, out NumberText number)
    {
        number = default;
        bool signed = text.Length > 0 && text[0] is '+' or '-' or '\u2212';
        bool negative = signed && text[0] != '+';
        ReadOnlySpan<char> rest = signed ? text[1..].TrimStart() : text;
        if (rest.IsEmpty)
        {
            return false;
        }

        bool leading = rest[0] is 'j' or 'i';
        rest = leading ? rest[1..].TrimStart() : rest;
        if (rest.IsEmpty || rest[0] is '+' or '-' or '\u2212' || !NumberText.TryRead(rest, out NumberText read, out int length))
        {
            return false;
        }

        rest = rest[length..];
        if (leading ? !rest.IsEmpty : rest is not ['j' or 'i'])
        {
            return false;
        }

        number = read with { Negative = negative };
        return true;
    }
}
