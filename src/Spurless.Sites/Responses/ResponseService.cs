using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Responses;

/// <summary>Answers what a network does over frequency.</summary>
public static class ResponseService
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far the study of the receiver has come, or null.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    public static Outcome<ResponseAnswer> Ask(
        ResponseQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ITwoPort network = question.Network.Network;
        ResponseResult result;
        try
        {
            double? near = question.NearHz
                ?? (question.Site is { Document.Receivers: [var first, ..] } ? first.Frequency.Hertz : (double?)null);
            double[] frequencies =
                [.. question.Frequencies?.Hertz ?? ResponseCalculator.DefaultFrequencies(network, near, cancellationToken)];
            if (ResponseCalculator.Refuse(network, question.Network.Name, frequencies) is { } refusal)
            {
                return refusal;
            }

            result = ResponseCalculator.Compute(network, question.Network.Name, frequencies, near, cancellationToken);
        }
        catch (CircuitException e)
        {
            return e.Fault;
        }

        ReceiverFindings? receiver = null;
        if (question is { StudiesReceiver: true, Site: { } studied })
        {
            Outcome<StudyResult> study = StudyService.Ask(
                new StudyQuestion { Site = studied, Options = new StudyOptions { Top = 1 } }, progress, cancellationToken);
            if (study.Answer is not { } found)
            {
                return study.Refusal ?? new Refusal(study.Problem, "see to the site");
            }

            receiver = found.Receivers is [var first, ..] ? first : null;
        }

        return new ResponseAnswer
        {
            Result = result,
            Network = network,
            Circuit = question.Network.Circuit?.Circuit,
            Receiver = receiver,
            Losses = question.Site is { } site ? Losses(network, site.Document) : [],
            Inputs = [question.Network.Source.Input, .. question.Site?.Inputs ?? []],
        };
    }

    private static CarrierLoss[] Losses(ITwoPort network, SiteDocument site) =>
        [.. site.Emitters.Select(e => new CarrierLoss(e.Name, e.Frequency.Hertz, RejectionAt(network, e.Frequency.Hertz, site)))];

    // Over all phases of the mismatch that the site's first receiver states: 1/|(1 - S11 Ga)(1 - S22 Gr) - S12 S21 Ga Gr|^2
    // (docs/method/filter-in-line.md). None for a one-port and outside a sweep.
    private static FilterRejection? RejectionAt(ITwoPort network, double frequencyHz, SiteDocument site)
    {
        if (network is MeasuredTwoPort { Ports: 1 } || frequencyHz < network.LowestHz || frequencyHz > network.HighestHz)
        {
            return null;
        }

        ScatteringMatrix there = network.At(frequencyHz);
        ReceiverEntry? receiver = site.Receivers.Count > 0 ? site.Receivers[0] : null;
        (double low, double high) = MismatchBand.Db(
            there, receiver?.Antenna?.Mismatch ?? ReceiverSetup.DefaultMismatch, receiver?.Mismatch ?? ReceiverSetup.DefaultMismatch);
        double loss = there.InsertionLossDb;
        return new FilterRejection(loss, loss - high, loss - low);
    }
}
