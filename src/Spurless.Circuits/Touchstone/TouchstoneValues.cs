using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Touchstone;

/// <summary>The words of a data line as complex numbers, and those as S-parameters, by what the header says of them.</summary>
internal sealed class TouchstoneValues(Findings findings, TouchstoneHeader header)
{
    /// <summary>One complex number in the file's format; false, and a finding, where the words are none.</summary>
    public bool TryPair(Token first, Token second, out Complex value)
    {
        value = default;
        TouchstoneFormat format = header.Options.Format;
        double a;
        if (format == TouchstoneFormat.DB && TouchstoneNumber.IsMinusInfinity(first.Text))
        {
            a = double.NegativeInfinity;
        }
        else if (!TouchstoneNumber.TryParse(first.Text, 0, out a))
        {
            NotANumber(first);
            return false;
        }

        if (!TouchstoneNumber.TryParse(second.Text, 0, out double b))
        {
            NotANumber(second);
            return false;
        }

        if (format == TouchstoneFormat.MA && a < 0)
        {
            findings.Error(
                first.Line,
                first.Column,
                $"a magnitude of {first.Text}, which cannot be below 0, in a file of format MA",
                "if these are decibels, write DB in the option line; if real and imaginary parts, RI");
            return false;
        }

        value = format switch
        {
            TouchstoneFormat.RI => new Complex(a, b),
            TouchstoneFormat.MA => Polar(a, b),
            _ => Polar(Math.Pow(10, a / 20), b),
        };
        if (!Complex.IsFinite(value))
        {
            findings.Error(first.Line, first.Column, $"{first.Text} dB is beyond any number", "write decibels, 20 lg of the magnitude");
            return false;
        }

        return true;
    }

    /// <summary>S-parameters from a point's pairs in the order of the file; false where there are none.</summary>
    public bool TryScattering(Complex[] pairs, int ports, ImmutableArray<Complex> references, out ScatteringMatrix s)
    {
        TouchstoneParameter parameter = header.Options.Parameter;
        double scale = header.Version is not null ? 1 : references[0].Real;
        if (ports == 1)
        {
            Complex p = parameter switch
            {
                TouchstoneParameter.S => pairs[0],
                TouchstoneParameter.Z or TouchstoneParameter.H => pairs[0] * scale,
                _ => pairs[0] / scale,
            };
            Complex? s11 = ParameterConversion.ToScattering(parameter, p, references[0]);
            s = new ScatteringMatrix(s11 ?? default, default, default, default);
            return s11 is not null;
        }

        TwoPortMatrix m = header.Form != MatrixForm.Full ? new(pairs[0], pairs[1], pairs[1], pairs[2])
            : header.FirstIs21 ?? true ? new(pairs[0], pairs[2], pairs[1], pairs[3])
            : new(pairs[0], pairs[1], pairs[2], pairs[3]);
        if (header.Version is null)
        {
            // Version 1 divides impedances by R and multiplies admittances with it.
            m = parameter switch
            {
                TouchstoneParameter.Z => new(m.M11 * scale, m.M12 * scale, m.M21 * scale, m.M22 * scale),
                TouchstoneParameter.Y => new(m.M11 / scale, m.M12 / scale, m.M21 / scale, m.M22 / scale),
                TouchstoneParameter.H => m with { M11 = m.M11 * scale, M22 = m.M22 / scale },
                TouchstoneParameter.G => m with { M11 = m.M11 / scale, M22 = m.M22 * scale },
                _ => m,
            };
        }

        ScatteringMatrix? found = ParameterConversion.ToScattering(parameter, m, references[0], references[1]);
        s = found ?? default;
        return found is not null;
    }

    /// <summary>The finding for a word that should be a number.</summary>
    public void NotANumber(Token word)
    {
        string remedy = word.Text.Contains(',', StringComparison.Ordinal)
            ? "write a decimal point, and blanks between numbers"
            : word.Text.Contains("nan", StringComparison.OrdinalIgnoreCase) || word.Text.Contains("inf", StringComparison.OrdinalIgnoreCase)
                ? "measure this point again or leave the line out (a magnitude of 0 may be written -inf in dB)"
                : "a number was expected, as in 145.05 or 1.4505e8; comments begin with !";
        findings.Error(word.Line, word.Column, TouchstoneLines.Quote(word.Text), remedy);
    }

    /// <summary>A number by magnitude and angle in degrees.</summary>
    public static Complex Polar(double magnitude, double degrees)
    {
        // Right angles come out exact: 0.5 at 180 degrees is -0.5 and nothing imaginary.
        double turn = Math.IEEERemainder(degrees, 360);
        return turn switch
        {
            0 => new Complex(magnitude, 0),
            90 => new Complex(0, magnitude),
            -90 => new Complex(0, -magnitude),
            180 or -180 => new Complex(-magnitude, 0),
            _ => Complex.FromPolarCoordinates(magnitude, turn * (Math.PI / 180)),
        };
    }
}
