using System.Globalization;
using System.Text;
using CsCheck;
using Spurless.Register.Reading;

namespace Spurless.Register.Tests.Reading;

/// <summary>What stands in a field: numbers, dates and angles as registers write them, and nothing where there is nothing.</summary>
public sealed class ColumnTextTests
{
    [Theory]
    [InlineData("", null)]
    [InlineData("-", null)]
    [InlineData("0", 0.0)]
    [InlineData("-12.5", -12.5)]
    [InlineData("1e3", 1000.0)]
    [InlineData("1e999", null)]
    [InlineData("NaN", null)]
    [InlineData("12,5", null)]
    [InlineData("12 m", null)]
    public void Number_of_a_field_is_a_finite_number_or_nothing(string field, double? value) =>
        Assert.Equal(value, ColumnText.Number(Bytes(field)));

    [Fact]
    public void NotZero_takes_zero_for_not_given()
    {
        Assert.Null(ColumnText.NotZero("0.000"u8));
        Assert.Equal(-1, ColumnText.NotZero("-1"u8));
    }

    [Fact]
    public void Hertz_of_any_frequency_in_any_unit_is_exact_to_the_hertz() =>
        Gen.Select(Gen.Long[1, 100_000_000_000], Gen.OneOf(1.0, 1e3, 1e6, 1e9)).Sample(static (hertz, unit) =>
        {
            string text = (hertz / (decimal)unit).ToString(CultureInfo.InvariantCulture);
            Assert.Equal(hertz, ColumnText.Hertz(Bytes(text), unit));
        });

    [Theory]
    [InlineData("", 1e6)]
    [InlineData("0", 1e6)]
    [InlineData("-145", 1e6)]
    [InlineData("145.05 MHz", 1e6)]
    [InlineData("1e9", 1e6)]
    public void Hertz_of_what_is_no_frequency_is_none(string field, double unit) => Assert.Equal(0, ColumnText.Hertz(Bytes(field), unit));

    [Theory]
    [InlineData("03/04/2031", true, "2031-03-04")]
    [InlineData("03/04/2031", false, "2031-04-03")]
    [InlineData("2031-03-04", true, "2031-03-04")]
    [InlineData("2031-03-04T12:30:00", false, "2031-03-04")]
    [InlineData("4-Mar-2031", false, "2031-03-04")]
    [InlineData("4 Mar 2031", false, "2031-03-04")]
    [InlineData("20310304", true, "2031-03-04")]
    [InlineData("4/3/2031 0:00", false, "2031-03-04")]
    [InlineData("13/13/2031", true, null)]
    [InlineData("2031-02-30", false, null)]
    [InlineData("", true, null)]
    public void Date_goes_by_the_order_that_is_said(string field, bool monthFirst, string? date) => Assert.Equal(
        date is null ? null : DateOnly.ParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture),
        ColumnText.Date(Bytes(field), monthFirst));

    [Fact]
    public void Date_of_any_day_in_every_unambiguous_form_is_that_day() =>
        Gen.Select(Gen.Int[1, 730_000], Gen.OneOf("yyyy-M-d", "yyyyMMdd", "d-MMM-yyyy"), Gen.Bool).Sample(
            static (day, format, monthFirst) =>
            {
                DateOnly date = DateOnly.FromDayNumber(day);
                Assert.Equal(date, ColumnText.Date(Bytes(date.ToString(format, CultureInfo.InvariantCulture)), monthFirst));
            });

    // 51 + 30/60 + 15/3600 = 51.504166...
    [Theory]
    [InlineData("51.5", 51.5)]
    [InlineData("-51.5", -51.5)]
    [InlineData("51.5 S", -51.5)]
    [InlineData("S 51.5", -51.5)]
    [InlineData("51.5w", -51.5)]
    [InlineData("51 30 15 N", 51.504166666666663)]
    [InlineData("51\u00B030'15\"N", 51.504166666666663)]
    [InlineData("51\u00B030\u203215\u2033 S", -51.504166666666663)]
    [InlineData("N51:30:15", 51.504166666666663)]
    [InlineData("51d30m15s", 51.504166666666663)]
    [InlineData("51d30m15s S", -51.504166666666663)]
    [InlineData("N 51d30m15s", 51.504166666666663)]
    [InlineData("51d30m15S", -51.504166666666663)]
    [InlineData("51 60 00 N", null)]
    [InlineData("51 30 60 N", null)]
    [InlineData("51 30 15 5 N", null)]
    [InlineData("north", null)]
    [InlineData("", null)]
    [InlineData("N", null)]
    public void Angle_of_one_text_with_whatever_marks(string field, double? degrees)
    {
        double? angle = ColumnText.Angle(Encoding.UTF8.GetBytes(field));
        Assert.Equal(degrees is null, angle is null);
        if (degrees is { } expected)
        {
            Assert.Equal(expected, angle!.Value, 1e-12);
        }
    }

    [Fact]
    public void Degrees_of_any_angle_in_parts_is_that_angle() =>
        Gen.Select(Gen.Int[0, 179], Gen.Int[0, 59], Gen.Double[0, 59.99], Gen.OneOf("N", "S", "E", "W", "n", "w", "")).Sample(
            static (d, m, s, side) =>
            {
                string seconds = s.ToString("F3", CultureInfo.InvariantCulture);
                double expected = d + (m / 60.0) + (double.Parse(seconds, CultureInfo.InvariantCulture) / 3600);
                expected = side is "S" or "W" or "w" ? -expected : expected;
                Assert.Equal(expected, ColumnText.Degrees(Bytes($"{d}"), Bytes($"{m}"), Bytes(seconds), Bytes(side))!.Value, 1e-12);
                Assert.Equal(expected, ColumnText.Angle(Bytes($"{d} {m} {seconds} {side}"))!.Value, 1e-12);
            });

    [Theory]
    [InlineData("51", "60", "0", "N")]
    [InlineData("-51", "30", "0", "N")]
    [InlineData("51", "30", "61", "N")]
    [InlineData("51", "30", "0", "X")]
    [InlineData("", "30", "0", "N")]
    [InlineData("51", "x", "0", "N")]
    public void Degrees_of_what_is_no_angle_is_nothing(string d, string m, string s, string side) =>
        Assert.Null(ColumnText.Degrees(Bytes(d), Bytes(m), Bytes(s), Bytes(side)));

    [Fact]
    public void Text_is_UTF8_else_Latin_1_and_doubled_quotes_are_one()
    {
        Assert.Equal("Türme", ColumnText.Text(Encoding.UTF8.GetBytes("Türme")));
        Assert.Equal("Türme", ColumnText.Text(Encoding.Latin1.GetBytes("Türme")));
        Assert.Equal("the \"old\" mast", ColumnText.Text("the \"\"old\"\" mast"u8));
        Assert.Null(ColumnText.TextOrNull("-"u8));
        Assert.Null(ColumnText.TextOrNull(""u8));
        Assert.Equal("--", ColumnText.TextOrNull("--"u8));
    }

    private static byte[] Bytes(string text) => Encoding.ASCII.GetBytes(text);
}
