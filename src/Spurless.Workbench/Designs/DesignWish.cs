using System.Globalization;
using Spurless.Design.Questions;
using Spurless.Radio.Quantities;

namespace Spurless.Workbench.Designs;

/// <summary>What a page asks of a design beyond its file, as it stands in an address. Null keeps what the file says.</summary>
public sealed record DesignWish
{
    private const int MostDemands = 60;

    /// <summary>The receiver of a site; null for its first.</summary>
    public string? Receiver { get; init; }

    /// <summary>Added to each need of a site, in dB.</summary>
    public double? MarginDb { get; init; }

    /// <summary>Unloaded Q of coils in the middle of the band.</summary>
    public double? InductorQ { get; init; }

    /// <summary>Power in watts that the filter must carry.</summary>
    public double? TransmitW { get; init; }

    /// <summary>The mask as drawn or typed, as <see cref="MaskOf"/> writes it; null for that of the file.</summary>
    public string? Mask { get; init; }

    /// <summary>The wish of an address; what cannot be read is as if it were left out.</summary>
    /// <param name="query">The value of a key; null where it is not there.</param>
    public static DesignWish Of(Func<string, string?> query)
    {
        ArgumentNullException.ThrowIfNull(query);
        return new DesignWish
        {
            Receiver = query("receiver") is { Length: > 0 } receiver ? receiver : null,
            MarginDb = Number(query("margin"), 0, 40),
            InductorQ = Number(query("q"), 1, 100_000),
            TransmitW = Number(query("power"), 0, 1e6) is { } watts and > 0 ? watts : null,
            Mask = query("mask") is { Length: > 0 } mask && Read(mask) is not null ? mask : null,
        };
    }

    /// <summary>The keys of the address; null for what is left out.</summary>
    public IReadOnlyDictionary<string, object?> Query() => new Dictionary<string, object?>
    {
        ["receiver"] = Receiver,
        ["margin"] = Text(MarginDb),
        ["q"] = Text(InductorQ),
        ["power"] = Text(TransmitW),
        ["mask"] = Mask,
    };

    /// <summary>A question's mask in one word: <c>144.9-145.2,3.5,12;153.35,18;459-467,50</c>, in MHz and dB.</summary>
    public static string MaskOf(DesignQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        string match = question.LeastReturnLossDb is { } db ? $",{Text(db)}" : "";
        return string.Join(';',
        [
            $"{Mega(question.PassFromHz)}-{Mega(question.PassToHz)},{Text(question.MostLossDb)}{match}",
            .. question.Reject.Select(static r => r.ToHz > r.FromHz
                ? $"{Mega(r.FromHz)}-{Mega(r.ToHz)},{Text(r.LeastLossDb)}"
                : $"{Mega(r.FromHz)},{Text(r.LeastLossDb)}"),
        ]);
    }

    /// <summary>A question with the mask of a word; null where it cannot be read.</summary>
    /// <param name="mask">The word.</param>
    /// <param name="question">What else is asked.</param>
    public static DesignQuestion? With(string mask, DesignQuestion question) => Read(mask) is { } read
        ? question with
        {
            PassFromHz = read.From,
            PassToHz = read.To,
            MostLossDb = read.LossDb,
            LeastReturnLossDb = read.MatchDb,
            Reject = read.Reject,
        }
        : null;

    private static (double From, double To, double LossDb, double? MatchDb, IReadOnlyList<RejectDemand> Reject)? Read(string mask)
    {
        string[] words = mask.Split(';');
        string[] pass = words[0].Split(',');
        if (words.Length > MostDemands || pass.Length is < 2 or > 3 || Span(pass[0]) is not { } band || Db(pass[1]) is not { } loss)
        {
            return null;
        }

        List<RejectDemand> reject = [];
        foreach (string word in words.Skip(1))
        {
            string[] two = word.Split(',');
            if (two.Length != 2 || Span(two[0]) is not { } span || Db(two[1]) is not { } by)
            {
                return null;
            }

            reject.Add(new RejectDemand(span.From, span.To, by));
        }

        return (band.From, band.To, loss, pass.Length == 3 ? Db(pass[2]) : null, reject);
    }

    private static (double From, double To)? Span(string text)
    {
        string[] two = text.Split('-');
        return two.Length is 1 or 2 && Number(two[0], 0, 1e6) is { } from and > 0 && Number(two[^1], 0, 1e6) is { } to and > 0
            ? (Math.Round(from * 1e6), Math.Round(to * 1e6))
            : null;
    }

    private static double? Db(string text) => Number(text, 0, 400) is { } db and > 0 ? db : null;

    private static double? Number(string? text, double least, double most) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && value >= least && value <= most
            ? value
            : null;

    private static string Mega(double hertz) => MegahertzText.Of(Math.Round(hertz), 0, 6);

    private static string? Text(double? value) => value?.ToString("0.####", CultureInfo.InvariantCulture);
}
