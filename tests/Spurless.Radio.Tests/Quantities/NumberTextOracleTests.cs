using System.Globalization;
using System.Numerics;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Tests.Quantities;

/// <summary>How numbers and their prefixes are read, against arithmetic in whole numbers of any length.</summary>
public sealed partial class NumberTextOracleTests
{
    /// <summary>Numbers as people write them: signs of three kinds, leading noughts, a point anywhere, an exponent or none.</summary>
    private static readonly Gen<string> _texts = Gen.Select(
        Gen.Int[0, 3].Select(static s => s switch { 0 => "-", 1 => "+", 2 => "\u2212", _ => "" }),
        Gen.String[Gen.Char['0', '9'], 0, 12],
        Gen.String[Gen.Char['0', '9'], 0, 12],
        Gen.Int[-16, 16]).Select(static (sign, whole, fraction, exponent) =>
        {
            string body = (whole, fraction) switch { ("", "") => "0", (_, "") => whole, _ => whole + "." + fraction };
            return sign + body + (exponent % 3 == 0 ? "" : exponent % 3 == 1 ? $"e{exponent}" : $"E{exponent:+0;-0}");
        });

    [GeneratedRegex(@"^([+\-\u2212]?)(\d*)\.?(\d*)(?:[eE]([+\-]?\d+))?$")]
    private static partial Regex Number { get; }

    /// <summary>The exact value as a fraction: numerator over a power of ten.</summary>
    private static (BigInteger Over, int Power) Exact(string text)
    {
        Match m = Number.Match(text);
        Assert.True(m.Success, text);
        BigInteger digits = BigInteger.Parse("0" + m.Groups[2].Value + m.Groups[3].Value, CultureInfo.InvariantCulture);
        int exponent = m.Groups[4].Success ? int.Parse(m.Groups[4].Value, CultureInfo.InvariantCulture) : 0;
        return (m.Groups[1].Value is "-" or "\u2212" ? -digits : digits, exponent - m.Groups[3].Length);
    }

    [Fact]
    public void TryRead_takes_the_whole_of_a_number_and_stops_before_what_follows() =>
        Gen.Select(_texts, Gen.Int[0, 5].Select(static i => new[] { "", " MHz", "MHz", "/m", " eV", "x" }[i])).Sample(static (text, rest) =>
        {
            Assert.True(NumberText.TryRead(text + rest, out NumberText number, out int length));
            Assert.Equal(text.Length, length);
            (BigInteger over, int power) = Exact(text);
            BigInteger digits = number.Digits.Length == 0 ? 0 : BigInteger.Parse(number.Digits, CultureInfo.InvariantCulture);
            Assert.Equal(BigInteger.Abs(over), number.Digits.Length == 0 ? 0 : digits);
            Assert.True(over.IsZero || number.Exponent == power);
        }, iter: 1_000);

    /// <summary>Whole units of 10^-power: the number itself where it is whole, its fraction or its size told where it is not.</summary>
    [Fact]
    public void ToWhole_is_exact_or_says_why_not() => Gen.Select(_texts, Gen.Int[-6, 9]).Sample(static (text, prefix) =>
    {
        Assert.True(NumberText.TryRead(text, out NumberText number, out _));
        (BigInteger over, int power) = Exact(text);
        power += prefix;
        WholeNumber found = number.ToWhole(prefix, out long value);
        BigInteger divisor = BigInteger.Pow(10, Math.Max(0, -power)), scaled = over * BigInteger.Pow(10, Math.Max(0, power));
        if (scaled % divisor != 0)
        {
            Assert.Equal(WholeNumber.HasFraction, found);
        }
        else if (BigInteger.Abs(scaled / divisor) > long.MaxValue)
        {
            Assert.Equal(WholeNumber.TooLarge, found);
        }
        else
        {
            Assert.Equal(WholeNumber.Exact, found);
            Assert.Equal(scaled / divisor, value);
        }
    }, iter: 2_000);

    /// <summary>The nearest double there is: no neighbour lies nearer to the exact fraction.</summary>
    [Fact]
    public void TryToDouble_is_the_nearest_there_is() => Gen.Select(_texts, Gen.Int[-15, 12]).Sample(static (text, prefix) =>
    {
        Assert.True(NumberText.TryRead(text, out NumberText number, out _));
        (BigInteger over, int power) = Exact(text);
        Assert.True(number.TryToDouble(prefix, out double value));
        Assert.Equal(over.Sign, Math.Sign(value));
        if (over.IsZero)
        {
            return;
        }

        BigInteger off = Off(value);
        Assert.True(off <= Off(Math.BitIncrement(value)) && off <= Off(Math.BitDecrement(value)), $"{text} e{prefix}: {value:R}");

        // |value - exact| times a common denominator, in whole numbers.
        BigInteger Off(double x)
        {
            long bits = BitConverter.DoubleToInt64Bits(x);
            int exponent = (int)((bits >> 52) & 0x7FF);
            BigInteger mantissa = (bits & 0xFFFFFFFFFFFFF) | (exponent == 0 ? 0 : 1L << 52);
            mantissa = x < 0 ? -mantissa : mantissa;
            int two = Math.Max(exponent, 1) - 1075, ten = power + prefix;
            BigInteger own = mantissa * BigInteger.Pow(10, Math.Max(0, -ten)) * BigInteger.Pow(2, 1100 + two);
            return BigInteger.Abs(own - (over * BigInteger.Pow(10, Math.Max(0, ten)) * BigInteger.Pow(2, 1100)));
        }
    }, iter: 500);

    /// <summary>One quantity in every prefix that its table has is one number of SI units, to the last bit.</summary>
    [Fact]
    public void A_quantity_in_any_prefix_is_one_quantity() =>
        Gen.Select(Gen.Int[1, 999_999], Gen.Int[-4, 2]).Sample(static (digits, decimals) =>
    {
        string In(int power, string unit)
        {
            decimal value = digits;
            for (int i = 0; i < Math.Abs(power + decimals); i++)
            {
                value = power + decimals < 0 ? value / 10 : value * 10;
            }

            return value.ToString("0.############################", CultureInfo.InvariantCulture) + " " + unit;
        }

        Same(static t => Capacitance.Parse(t).Farads, In(3, "pF"), In(0, "nF"), In(-3, "uF"), In(-3, "\u00B5F"), In(-3, "\u03BCF"));
        Same(static t => Inductance.Parse(t).Henries, In(3, "nH"), In(0, "uH"), In(-3, "mH"));
        Same(static t => Resistance.Parse(t).Ohms, In(3, "mohm"), In(0, "ohm"), In(-3, "kohm"), In(0, "\u03A9"), In(0, "\u2126"));
        Same(static t => Power.Parse(t).Watts, In(3, "mW"), In(0, "W"), In(-3, "kW"));
        Same(static t => Length.Parse(t).Metres, In(3, "mm"), In(2, "cm"), In(0, "m"), In(-3, "km"));
        Same(static t => Duration.Parse(t).Seconds, In(3, "ms"), In(0, "s"));
    }, iter: 200);

    /// <summary>Frequencies are whole hertz: what has a fraction of one is refused, what has none is exact in any prefix.</summary>
    [Fact]
    public void A_frequency_is_exact_or_refused_in_any_prefix() => Gen.Select(Gen.Long[1, 99_999_999_999], Gen.Int[0, 3]).Sample(
        static (hertz, power) =>
        {
            string unit = new[] { "Hz", "kHz", "MHz", "GHz" }[power];
            decimal scale = power switch { 0 => 1, 1 => 1_000, 2 => 1_000_000, _ => 1_000_000_000 };
            string text = (hertz / scale).ToString(CultureInfo.InvariantCulture);
            Assert.Equal(hertz, Frequency.Parse($"{text} {unit}").Hertz);
            Assert.Equal(-hertz, Frequency.Parse($"-{text} {unit}").Hertz);
            string finer = text + (text.Contains('.', StringComparison.Ordinal) ? "" : ".") + new string('0', 9) + "5";
            Assert.False(Frequency.TryParse($"{finer} {unit}", out _, out string problem));
            Assert.Contains("; write", problem, StringComparison.Ordinal);
        }, iter: 500);

    private static void Same(Func<string, double> read, params string[] texts)
    {
        double first = read(texts[0]);
        foreach (string text in texts)
        {
            Assert.Equal(first, read(text));
        }
    }
}
