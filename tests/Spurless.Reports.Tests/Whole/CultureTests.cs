using System.Globalization;

namespace Spurless.Reports.Tests.Whole;

/// <summary>A machine with commas for points, dots for groups and a minus of its own writes the same bytes.</summary>
public sealed class CultureTests
{
    public static TheoryData<string> Texts => [.. Answered.Texts.Keys];

    public static TheoryData<string> Jsons => [.. Answered.Jsons.Keys];

    public static TheoryData<string> Csvs => [.. Answered.Csvs.Keys];

    public static TheoryData<string> Pages => [.. Answered.Pages.Keys];

    [Theory]
    [MemberData(nameof(Texts))]
    public void Text_is_the_same_everywhere(string answer) => Same(() => Answered.TextOf(answer));

    [Theory]
    [MemberData(nameof(Jsons))]
    public void Json_is_the_same_everywhere(string answer) => Same(() => Answered.JsonOf(answer));

    [Theory]
    [MemberData(nameof(Csvs))]
    public void Csv_is_the_same_everywhere(string answer) => Same(() => Answered.CsvOf(answer));

    [Theory]
    [MemberData(nameof(Pages))]
    public void Page_is_the_same_everywhere(string answer) => Same(() => Answered.Pages[answer]().GetAwaiter().GetResult());

    // The signs of German, Swedish and Arabic at once, made by hand: no table of the system is needed for it.
    private static void Same(Func<string> write)
    {
        string here = write();
        CultureInfo before = CultureInfo.CurrentCulture;
        CultureInfo other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        NumberFormatInfo numbers = other.NumberFormat;
        (numbers.NumberDecimalSeparator, numbers.NumberGroupSeparator) = (",", ".");
        (numbers.NegativeSign, numbers.PositiveSign) = ("\u2212", "p");
        (numbers.PercentSymbol, numbers.NaNSymbol, numbers.PositiveInfinitySymbol) = ("Pct", "keine", "unendlich");
        (other.DateTimeFormat.DateSeparator, other.DateTimeFormat.TimeSeparator) = (".", "h");
        other.TextInfo.ListSeparator = ";";
        try
        {
            CultureInfo.CurrentCulture = other;
            Assert.Equal(here, write());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
