using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Plans;

/// <summary>Weighs every channel of a band for a receiver of a site that is moved there with our own transmitter.</summary>
public static class PlanService
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far it has come, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The channels, best first; a refusal where the question makes no sense, its subject the property that is at fault.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static Outcome<PlanAnswer> Ask(
        PlanQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        SiteDocument document = question.Site.Document;
        int receiver = question.Receiver is { } name
            ? document.Receivers.Index().FirstOrDefault(r => r.Item.Name == name, (-1, null!)).Index
            : 0;
        if ((receiver < 0 ? NoReceiver(question) : Wrong(question, receiver)) is { } wrong)
        {
            return wrong;
        }

        return new PlanRun(question, receiver, progress, cancellationToken).Run();
    }

    private static Refusal NoReceiver(PlanQuestion question) => new(
        $"the site has no receiver '{question.Receiver}'",
        $"write one of {string.Join(", ", question.Site.Document.Receivers.Select(static r => r.Name))}")
    {
        Subject = nameof(PlanQuestion.Receiver),
    };

    private static Refusal? Wrong(PlanQuestion question, int receiver) =>
        OfBand(question) ?? OfShift(question, receiver) ?? OfCount(question);

    private static Refusal? OfBand(PlanQuestion question)
    {
        if (question.RasterHz <= 0)
        {
            return new Refusal(
                $"a raster of {Frequency.FromHertz(question.RasterHz)} has no channels",
                "write the distance of one channel from the next, such as 12.5 kHz")
            {
                Subject = nameof(PlanQuestion.RasterHz),
            };
        }

        if (question.FromHz <= 0 || question.ToHz < question.FromHz || question.ToHz > Frequency.GreatestHertz)
        {
            return new Refusal("the band does not rise from above 0 to 300 GHz at most", "write the lower frequency first")
            {
                Subject = nameof(PlanQuestion.FromHz),
            };
        }

        long width = question.ToHz - question.FromHz;
        if (width % question.RasterHz is > 0 and var over)
        {
            string raster = Frequency.FromHertz(question.RasterHz).ToString();
            string low = Frequency.FromHertz(question.ToHz - over).ToString();
            string high = Frequency.FromHertz(question.ToHz - over + question.RasterHz).ToString();
            return new Refusal(
                $"channels of {raster} from {Frequency.FromHertz(question.FromHz)} do not end at {Frequency.FromHertz(question.ToHz)}",
                $"both edges are channels: end the band at {low} or {high}")
            {
                Subject = nameof(PlanQuestion.RasterHz),
            };
        }

        return width / question.RasterHz < PlanQuestion.MostChannels
            ? null
            : new Refusal(
                FormattableString.Invariant($"the band has {(width / question.RasterHz) + 1:N0} channels"),
                FormattableString.Invariant($"ask for {PlanQuestion.MostChannels:N0} at most: a narrower band, or part by part"))
            {
                Subject = nameof(PlanQuestion.FromHz),
            };
    }

    private static Refusal? OfShift(PlanQuestion question, int receiver)
    {
        SiteDocument document = question.Site.Document;
        ReceiverEntry entry = document.Receivers[receiver];
        int[] own = MovedSite.Own(document, receiver);
        if (question.ShiftHz is { } asked)
        {
            if (own.Length == 0)
            {
                return OfShift(
                    $"no transmitter of the site follows '{entry.Name}', so there is none to shift",
                    $"write 'follows: {entry.Name}' at our own transmitter, or leave --shift out");
            }

            if (own.Length > 1)
            {
                return OfShift(
                    $"{own.Length} transmitters follow '{entry.Name}', and one shift would put them on one channel",
                    "leave --shift out: each keeps its distance");
            }

            EmitterEntry transmitter = document.Emitters[own[0]];
            if (2 * Math.Abs(asked) < entry.Channel.Hertz + transmitter.BandwidthHz)
            {
                return OfShift(
                    $"shifted by {Frequency.FromHertz(asked)} the transmitter stands on the channel that it is to listen on",
                    "write transmit less receive frequency, such as \"-600 kHz\"");
            }
        }

        foreach (int i in own)
        {
            long shift = MovedSite.ShiftHz(document.Emitters[i], entry, question.ShiftHz);
            if (question.FromHz + shift <= 0 || question.ToHz + shift > Frequency.GreatestHertz)
            {
                return OfShift(
                    $"{Frequency.FromHertz(shift)} from this band {document.Emitters[i].Name} would not stand between 0 and 300 GHz",
                    "write transmit less receive frequency, such as --shift \"-600 kHz\"");
            }
        }

        return null;

        static Refusal OfShift(string what, string remedy) => new(what, remedy) { Subject = nameof(PlanQuestion.ShiftHz) };
    }

    private static Refusal? OfCount(PlanQuestion question) =>
        question.Count is not { } count || count is >= 1 and <= PlanQuestion.MostTogether
            ? null
            : new Refusal($"{count} channels side by side are not sought", $"ask for 1 to {PlanQuestion.MostTogether}")
            {
                Subject = nameof(PlanQuestion.Count),
            };
}
