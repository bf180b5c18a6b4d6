using Spurless.Sites.Documents;

namespace Spurless.Sites.Plans;

/// <summary>The channels of a plan, which of them are not offered, and what stands in the band.</summary>
internal sealed class PlanGrid
{
    private readonly PlanQuestion _question;
    private readonly SiteDocument _document;
    private readonly int _receiver;
    private readonly HashSet<int> _own;

    public PlanGrid(PlanQuestion question, int receiver)
    {
        (_question, _document, _receiver) = (question, question.Site.Document, receiver);
        int[] own = MovedSite.Own(_document, receiver);
        _own = [.. own];
        Entry = _document.Receivers[receiver];
        Own = own;
        ShiftsHz = [.. own.Select(i => MovedSite.ShiftHz(_document.Emitters[i], Entry, question.ShiftHz))];
        Count = (int)((question.ToHz - question.FromHz) / question.RasterHz) + 1;
    }

    /// <summary>The receiver that is moved, as it stands in the site file.</summary>
    public ReceiverEntry Entry { get; }

    /// <summary>Indices of our own transmitters.</summary>
    public IReadOnlyList<int> Own { get; }

    /// <summary>The distance of each of them from the receiver in hertz.</summary>
    public IReadOnlyList<long> ShiftsHz { get; }

    /// <summary>Number of channels.</summary>
    public int Count { get; }

    /// <summary>A channel's centre in hertz.</summary>
    public long FrequencyHz(int channel) => _question.FromHz + (channel * _question.RasterHz);

    /// <summary>Why a channel is not offered, or null.</summary>
    public PlanTaken? Taken(int channel)
    {
        long frequency = FrequencyHz(channel);
        long width = Entry.Channel.Hertz;
        if (Standing(frequency, width) is { } there)
        {
            return new PlanTaken(frequency, there.IsReceiver ? PlanReason.Receiver : PlanReason.Emitter, there.Name);
        }

        if (_question.BandPlan?.AgainstReceiving(frequency, width) is { } part)
        {
            return new PlanTaken(frequency, PlanReason.BandPlan, BandPlanReader.Word(part.Use));
        }

        for (int i = 0; i < Own.Count; i++)
        {
            long transmit = frequency + ShiftsHz[i];
            long occupied = _document.Emitters[Own[i]].BandwidthHz;
            if (Standing(transmit, occupied) is { } near)
            {
                return new PlanTaken(frequency, near.IsReceiver ? PlanReason.ReceiverOnTransmit : PlanReason.EmitterOnTransmit, near.Name);
            }

            if (_question.BandPlan?.AgainstTransmitting(transmit, occupied) is { } against)
            {
                return new PlanTaken(frequency, PlanReason.BandPlanOnTransmit, BandPlanReader.Word(against.Use));
            }
        }

        return null;
    }

    /// <summary>Whether receivers and transmitters on two channels are out of each other's way.</summary>
    public bool Fit(int one, int other)
    {
        long width = Entry.Channel.Hertz;
        bool fit = one != other && !Overlap(FrequencyHz(one), width, FrequencyHz(other), width);
        for (int i = 0; fit && i < Own.Count; i++)
        {
            long occupied = _document.Emitters[Own[i]].BandwidthHz;
            fit = !Overlap(FrequencyHz(one), width, FrequencyHz(other) + ShiftsHz[i], occupied)
                && !Overlap(FrequencyHz(other), width, FrequencyHz(one) + ShiftsHz[i], occupied);
        }

        return fit;
    }

    /// <summary>What stands in the band, and close enough to its edges to reach into it; our own, which moves, is not among it.</summary>
    public IReadOnlyList<PlanMark> Marks()
    {
        long middle = _question.FromHz + ((_question.ToHz - _question.FromHz) / 2);
        long width = _question.ToHz - _question.FromHz + Entry.Channel.Hertz;
        return
        [
            .. Others().Where(o => Overlap(o.FrequencyHz, o.WidthHz, middle, width))
                .OrderBy(static o => o.FrequencyHz)
                .ThenBy(static o => o.Name, StringComparer.Ordinal)
                .Select(static o => new PlanMark(o.Name, o.FrequencyHz, o.IsReceiver)),
        ];
    }

    private (string Name, bool IsReceiver)? Standing(long frequencyHz, long widthHz)
    {
        foreach ((string name, long at, long width, bool isReceiver) in Others())
        {
            if (Overlap(frequencyHz, widthHz, at, width))
            {
                return (name, isReceiver);
            }
        }

        return null;
    }

    private IEnumerable<(string Name, long FrequencyHz, long WidthHz, bool IsReceiver)> Others()
    {
        for (int i = 0; i < _document.Emitters.Count; i++)
        {
            if (!_own.Contains(i))
            {
                EmitterEntry emitter = _document.Emitters[i];
                yield return (emitter.Name, emitter.Frequency.Hertz, emitter.BandwidthHz, false);
            }
        }

        for (int r = 0; r < _document.Receivers.Count; r++)
        {
            if (r != _receiver)
            {
                ReceiverEntry receiver = _document.Receivers[r];
                yield return (receiver.Name, receiver.Frequency.Hertz, receiver.Channel.Hertz, true);
            }
        }
    }

    // Neighbours whose edges touch are out of each other's way; on one and the same frequency they are not, whatever their widths.
    private static bool Overlap(long oneHz, long oneWidthHz, long otherHz, long otherWidthHz) =>
        oneHz == otherHz || 2 * Math.Abs(oneHz - otherHz) < oneWidthHz + otherWidthHz;
}
