using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>A carrier with the letter that the picture and the tables know it by.</summary>
/// <param name="Letter">By ascending frequency: A to Z, then AA ...</param>
/// <param name="Index">Its place in <see cref="ReceiverFindings.Carriers"/>.</param>
/// <param name="Finding">The carrier.</param>
public sealed record LetteredCarrier(string Letter, int Index, CarrierFinding Finding)
{
    /// <summary>All carriers of a receiver by ascending frequency, lettered.</summary>
    public static IReadOnlyList<LetteredCarrier> Of(ReceiverFindings receiver) =>
    [
        .. receiver.Carriers
            .Select(static (c, i) => (Carrier: c, Index: i))
            .OrderBy(static c => c.Carrier.FrequencyHz)
            .ThenBy(static c => c.Index)
            .Select(static (c, i) => new LetteredCarrier(LetterOf(i), c.Index, c.Carrier)),
    ];

    private static string LetterOf(int place)
    {
        string letters = "";
        for (int n = place + 1; n > 0; n = (n - 1) / 26)
        {
            letters = (char)('A' + ((n - 1) % 26)) + letters;
        }

        return letters;
    }
}

/// <summary>What the study picture of one receiver shows.</summary>
public sealed record StudyPictureModel
{
    /// <summary>The receiver.</summary>
    public required ReceiverFindings Receiver { get; init; }

    /// <summary>Its mixtures, numbered.</summary>
    public required IReadOnlyList<NumberedFinding> Findings { get; init; }

    /// <summary>Its carriers by ascending frequency.</summary>
    public required IReadOnlyList<LetteredCarrier> Carriers { get; init; }

    /// <summary>Gain of the chain from the antenna connector to the receiver in dB, over frequency in hertz.</summary>
    public required Func<double, double> ResponseDb { get; init; }

    /// <summary>Thresholds of the verdicts.</summary>
    public required StudyOptions Options { get; init; }

    /// <summary>What before and after are called.</summary>
    public ComparisonWords Words { get; init; } = ComparisonWords.Filter;

    /// <summary>Index of the carrier that is picked out, in <see cref="ReceiverFindings.Carriers"/>; null for none.</summary>
    public int? PickedCarrier { get; init; }

    /// <summary>Whether mixtures can land here and no level of any carrier is known yet: what is shown is arithmetic alone.</summary>
    public bool HasNoLevels => Findings.Count > 0 && Receiver.Carriers.All(static c => c.LevelAtAntennaDbm is null);

    /// <summary>Whether the receiver's chain has a filter, so that there is a before and an after.</summary>
    public bool HasFilter => Receiver.WithoutFilter is not null;

    /// <summary>The picture of one receiver of a study.</summary>
    /// <param name="receiver">The receiver's findings.</param>
    /// <param name="options">The thresholds that were in force.</param>
    /// <param name="responseDb">Gain of the chain; the receiver's own chain where null.</param>
    public static StudyPictureModel Of(ReceiverFindings receiver, StudyOptions options, Func<double, double>? responseDb = null) => new()
    {
        Receiver = receiver,
        Findings = NumberedFinding.Of(receiver),
        Carriers = LetteredCarrier.Of(receiver),
        ResponseDb = responseDb ?? receiver.Chain.GainDb,
        Options = options,
    };
}
