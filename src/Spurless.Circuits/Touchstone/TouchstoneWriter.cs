using System.Globalization;
using System.Numerics;
using System.Text;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Touchstone;

/// <summary>How a Touchstone file is written.</summary>
/// <param name="Version2">Version 2.0 rather than 1.1.</param>
/// <param name="Unit">Unit of the frequencies.</param>
/// <param name="Format">How complex numbers are written.</param>
/// <param name="Digits">Significant digits, 1 to 17; 0 for the fewest that read back as the same number.</param>
/// <param name="Comments">Lines put at the head as comments.</param>
public sealed record TouchstoneWriteOptions(
    bool Version2 = false,
    TouchstoneUnit Unit = TouchstoneUnit.Hz,
    TouchstoneFormat Format = TouchstoneFormat.RI,
    int Digits = 0,
    IReadOnlyList<string>? Comments = null);

/// <summary>
/// Writes S-parameters of one or two ports as Touchstone 1.1 or 2.0. What is written reads back equal to the printed digits;
/// with <c>Digits = 0</c> and RI it reads back exactly.
/// Source: Touchstone File Format Specification 2.0 (IBIS Open Forum, 2009).
/// </summary>
public static class TouchstoneWriter
{
    /// <summary>The file as text with LF line ends and characters of ASCII only.</summary>
    /// <param name="data">What to write; references must be real, and in version 1.1 equal.</param>
    /// <param name="options">How; null for version 1.1, Hz, RI, all digits.</param>
    /// <param name="text">The file.</param>
    /// <param name="problem">Where it cannot be written: what was found; what to do instead.</param>
    public static bool TryWrite(TouchstoneData data, TouchstoneWriteOptions? options, out string text, out string problem)
    {
        ArgumentNullException.ThrowIfNull(data);
        options ??= new TouchstoneWriteOptions();
        text = "";
        problem = "";
        if (data.References.Any(static z => z.Imaginary != 0))
        {
            problem = "the reference impedance is complex, which the format does not know; renormalise to 50 ohm first";
            return false;
        }

        if (!options.Version2 && data.References[0] != data.References[^1])
        {
            problem =
                "the ports have different references, which version 1.1 does not know; write version 2.0, or renormalise to 50 ohm first";
            return false;
        }

        StringBuilder file = new();
        foreach (string comment in options.Comments ?? [])
        {
            foreach (string line in comment.Split('\n'))
            {
                file.Append("! ").Append(string.Concat(line.Select(static c => c is >= ' ' and < (char)127 ? c : '?'))).Append('\n');
            }
        }

        WriteHead(file, data, options);
        for (int i = 0; i < data.Points.Length; i++)
        {
            ScatteringMatrix s = data.Points[i];
            file.Append(Frequency(data.FrequenciesHz[i], options));
            Pair(file, s.S11, options);
            if (data.Ports == 2)
            {
                Pair(file, s.S21, options);
                Pair(file, s.S12, options);
                Pair(file, s.S22, options);
            }

            file.Append('\n');
        }

        WriteNoise(file, data, options);
        if (options.Version2)
        {
            file.Append("[End]\n");
        }

        text = file.ToString();
        return true;
    }

    private static void WriteHead(StringBuilder file, TouchstoneData data, TouchstoneWriteOptions options)
    {
        string unit = options.Unit switch
        {
            TouchstoneUnit.Hz => "Hz",
            TouchstoneUnit.KHz => "kHz",
            TouchstoneUnit.MHz => "MHz",
            _ => "GHz",
        };
        string option = $"# {unit} S {options.Format} R {Number(data.References[0].Real, 0)}\n";
        if (!options.Version2)
        {
            file.Append(option);
            return;
        }

        file.Append("[Version] 2.0\n").Append(option);
        file.Append(CultureInfo.InvariantCulture, $"[Number of Ports] {data.Ports}\n");
        if (data.Ports == 2)
        {
            file.Append("[Two-Port Data Order] 21_12\n");
        }

        file.Append(CultureInfo.InvariantCulture, $"[Number of Frequencies] {data.Points.Length}\n");
        if (!data.Noise.IsEmpty)
        {
            file.Append(CultureInfo.InvariantCulture, $"[Number of Noise Frequencies] {data.Noise.Length}\n");
        }

        file.Append("[Reference]");
        foreach (Complex reference in data.References)
        {
            file.Append(' ').Append(Number(reference.Real, 0));
        }

        file.Append("\n[Matrix Format] Full\n[Network Data]\n");
    }

    private static void WriteNoise(StringBuilder file, TouchstoneData data, TouchstoneWriteOptions options)
    {
        if (data.Noise.IsEmpty)
        {
            return;
        }

        if (options.Version2)
        {
            file.Append("[Noise Data]\n");
        }

        foreach (TouchstoneNoisePoint point in data.Noise)
        {
            double resistance = options.Version2 ? point.NoiseResistanceOhm : point.NoiseResistanceOhm / data.References[0].Real;
            file.Append(Frequency(point.FrequencyHz, options)).Append(' ').Append(Number(point.MinimumNoiseFigureDb, options.Digits));
            Pair(file, point.OptimumSource, options with { Format = TouchstoneFormat.MA });
            file.Append(' ').Append(Number(resistance, options.Digits)).Append('\n');
        }
    }

    private static void Pair(StringBuilder file, Complex value, TouchstoneWriteOptions options)
    {
        (string first, string second) = options.Format switch
        {
            TouchstoneFormat.RI => (Number(value.Real, options.Digits), Number(value.Imaginary, options.Digits)),
            TouchstoneFormat.MA => (Number(value.Magnitude, options.Digits), Number(Degrees(value), options.Digits)),
            _ =>
                (value == Complex.Zero
                    ? "-inf"
                    : Number(20 * Math.Log10(value.Magnitude), options.Digits), Number(Degrees(value), options.Digits)),
        };
        file.Append(' ').Append(first).Append(' ').Append(second);
    }

    private static double Degrees(Complex value) => value.Phase * (180 / Math.PI);

    /// <summary>The frequency in the unit, shifted in decimal so that no digit is lost or made.</summary>
    private static string Frequency(double hertz, TouchstoneWriteOptions options)
    {
        int shift = (int)options.Unit;
        if (shift == 0)
        {
            return hertz.ToString("R", CultureInfo.InvariantCulture);
        }

        return Math.Abs(hertz) < 1e15
            ? ((decimal)hertz / (decimal)Math.Pow(10, shift)).ToString("0.############################", CultureInfo.InvariantCulture)
            : (hertz / Math.Pow(10, shift)).ToString("R", CultureInfo.InvariantCulture);
    }

    private static string Number(double value, int digits) =>
        value.ToString(digits == 0 ? "R" : "G" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
