using CsCheck;
using Spurless.Drawing.Words;

namespace Spurless.Drawing.Tests.Words;

/// <summary>Signs and spaces of sentences on pages.</summary>
public class TypographyTests
{
    [Theory]
    [InlineData("Loses 50 dB at 145.05 MHz.", "Loses 50_dB at 145.05_MHz.")]
    [InlineData("By 0.4 dB, 2.5 kHz (at 25 W) or 3 %", "By 0.4_dB, 2.5_kHz (at 25_W) or 3_%")]
    [InlineData("6.8 pF, 27.6 nH, 50 ohm and 12 m", "6.8_pF, 27.6_nH, 50_ohm and 12_m")]
    [InlineData("\u221235 dBm and -3 dBc", "\u221235_dBm and -3_dBc")]
    [InlineData("1\u202F200 Hz to 3,5 MHz", "1\u202F200_Hz to 3,5_MHz")]
    [InlineData("2 minutes, 3 parts, 4 kinds, 5 Wednesdays", "2 minutes, 3 parts, 4 kinds, 5 Wednesdays")] // words that begin as units do
    [InlineData("3 mixtures within 2 h, 10 min and 5 s", "3 mixtures within 2_h, 10_min and 5_s")]
    [InlineData("C3 W, e299 dB, IP3 dBm, 2.x Hz", "C3 W, e299 dB, IP3 dBm, 2.x Hz")] // names
    [InlineData("the 2 m band, 70 cm", "the 2_m band, 70 cm")]
    [InlineData("50  dB, 50dB", "50  dB, 50dB")]
    [InlineData("", "")]
    public void Figure_keeps_its_unit(string sentence, string held)
    {
        Assert.Equal(held, Typography.Fine.Held(sentence).Replace('\u00A0', '_'));
        Assert.Equal(sentence, Typography.Plain.Held(sentence));
    }

    [Fact]
    public void Held_is_the_same_text_but_for_its_spaces_and_holding_twice_changes_nothing()
    {
        Gen.Select(
                Gen.Int[0, 99_999],
                Gen.OneOf("dB", "dBm", "MHz", "kHz", "Hz", "W", "m", "pF", "x", "parts", "and", "", "%"),
                Gen.OneOf(" ", ", ", ". ", " (", ") ", "e", ""))
            .Array[0, 12]
            .Sample(parts =>
            {
                string sentence = string.Concat(parts.Select(static p => FormattableString.Invariant($"{p.Item1} {p.Item2}{p.Item3}")));
                string held = Typography.Fine.Held(sentence);
                Assert.Equal(sentence, held.Replace('\u00A0', ' '));
                Assert.Equal(held, Typography.Fine.Held(held));
            });
    }

    [Fact]
    public void Every_unit_that_answers_use_is_held()
    {
        string[] units = ["dB", "dBm", "dBi", "dBc", "Hz", "kHz", "MHz", "GHz", "W", "mW", "kW", "V", "mV", "uV", "\u00B5V", "A", "mA",
            "pF", "nF", "nH", "uH", "mm", "m", "km", "ms", "s", "ohm", "K", "h", "min", "%"];
        Assert.All(units, static u => Assert.Equal($"is 7.5\u00A0{u}.", Typography.Fine.Held($"is 7.5 {u}.")));
    }

    [Theory]
    [InlineData("-140 to -160 dBc/Hz", "\u2212140 to \u2212160 dBc/Hz")]
    [InlineData("a two-tone test of 2-3 signals", "a two-tone test of 2-3 signals")]
    [InlineData("(-3 dB) [-4] -x", "(\u22123 dB) [\u22124] -x")]
    public void Minus_stands_before_figures_alone(string sentence, string signed)
    {
        Assert.Equal(signed, Typography.Fine.Signed(sentence));
        Assert.Equal(sentence, Typography.Plain.Signed(sentence));
    }
}
