using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Radio.Emissions;

namespace Spurless.Radio.Tests.Emissions;

/// <summary>
/// Every bandwidth of four characters there can be, against the rule as ITU Radio Regulations Appendix 1 words it (docs/checks.md 5.5):
/// three digits and one letter in the place of the decimal point, the first character neither 0 nor K, M, G.
/// </summary>
public sealed partial class BandwidthOracleTests
{
    [GeneratedRegex("^(?:[1-9][0-9]{2}[HKMG]|[1-9][0-9][HKMG][0-9]|[1-9][HKMG][0-9]{2}|H[0-9]{3})$")]
    private static partial Regex Rule { get; }

    [Fact]
    public void TryParse_of_every_four_characters_is_the_regulations_rule()
    {
        const string all = "0123456789HKMG";
        int taken = 0;
        foreach (char a in all)
        {
            foreach (char b in all)
            {
                foreach (char c in all)
                {
                    foreach (char d in all)
                    {
                        string width = string.Concat(a.ToString(), b.ToString(), c.ToString(), d.ToString());
                        bool right = Rule.IsMatch(width) && width != "H000";
                        Assert.Equal(right, Emission.TryParse(width + "F3E", out Emission emission, out string problem));
                        Assert.Equal(right, problem.Length == 0);
                        if (right)
                        {
                            Assert.Equal(Millihertz(width), emission.BandwidthMillihertz);
                            taken++;
                        }
                    }
                }
            }
        }

        // 900 whole and 9 x 10 x 10 of each place of the letter, in four units, and 999 below a hertz.
        Assert.Equal((3 * 900 * 4) + 999, taken);
    }

    /// <summary>What is written is one of those, three digits of the width, and no wider than half of the last digit away.</summary>
    [Fact]
    public void FormatBandwidth_is_the_nearest_of_all_designators()
    {
        long[] all = [.. Designators().Select(Millihertz).Order()];
        Gen.Double[0.1, 11.9].Select(static lg => Math.Round(Math.Pow(10, lg), 3)).Sample(
            hertz =>
            {
                string written = Emission.FormatBandwidth(hertz);
                Assert.Matches(Rule, written);
                int at = Array.BinarySearch(all, (long)(hertz * 1000));
                at = at < 0 ? ~at : at;
                double nearest = all[Math.Max(0, at - 2)..Math.Min(all.Length, at + 2)].Min(m => Math.Abs((m / 1000.0) - hertz));
                Assert.Equal(nearest, Math.Abs((Millihertz(written) / 1000.0) - hertz), 1e-6 * hertz);
            },
            iter: 1_000);
    }

    /// <summary>Class symbols: each of the regulations' three tables alone decides, and four and five symbols are optional.</summary>
    [Fact]
    public void TryParse_of_every_class_of_three_letters_is_the_three_tables()
    {
        const string any = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
        int taken = 0;
        foreach (char first in any)
        {
            foreach (char second in any)
            {
                foreach (char third in any)
                {
                    bool right = "NAHRBCJFGDPKLMQVWX".Contains(first, StringComparison.Ordinal)
                        && "0123789X".Contains(second, StringComparison.Ordinal) && "NABCDEFWX".Contains(third, StringComparison.Ordinal);
                    Assert.Equal(right, Emission.TryParse($"16K0{first}{second}{third}", out Emission emission, out _));
                    if (right)
                    {
                        Assert.Equal((first, second, third), (emission.Modulation, emission.SignalNature, emission.Information));
                        taken++;
                    }
                }
            }
        }

        Assert.Equal(18 * 8 * 9, taken);
    }

    private static IEnumerable<string> Designators()
    {
        for (int i = 1; i < 1000; i++)
        {
            yield return FormattableString.Invariant($"H{i:000}");
            for (int place = 1; place <= 3 && i >= 100; place++)
            {
                foreach (char letter in "HKMG")
                {
                    yield return i.ToString(CultureInfo.InvariantCulture).Insert(place, letter.ToString());
                }
            }
        }
    }

    private static long Millihertz(string width)
    {
        char letter = width.First(char.IsAsciiLetterUpper);
        decimal unit = letter switch { 'H' => 1, 'K' => 1_000, 'M' => 1_000_000, _ => 1_000_000_000 };
        return (long)(decimal.Parse("0" + width.Replace(letter, '.'), CultureInfo.InvariantCulture) * unit * 1_000);
    }
}
