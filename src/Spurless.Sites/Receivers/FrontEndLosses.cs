using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Mixing.Measurements;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Receivers;

/// <summary>What stands before the first active stage takes from a tone over what it takes on the channel.</summary>
internal sealed class FrontEndLosses
{
    private readonly MeasuredTwoPort? _sweep;
    private readonly long _channelHz;
    private readonly double _closeShare;
    private readonly double _sigmaDb;
    private readonly ReadingSources _sources;
    private readonly Dictionary<long, MeasuredFigure?> _known = [];

    public FrontEndLosses(ReceiverQuestion question, ReadingSources sources)
    {
        ReceiverMeasurements document = question.Measurements.Document;
        _sweep = question.Measurements.FrontEnd;
        _channelHz = document.Frequency.Hertz;
        _closeShare = question.CloseShare;
        _sigmaDb = document.Measured.OfType<FrontEndReading>().FirstOrDefault()?.SigmaDb ?? 0;
        _sources = sources;
    }

    /// <summary>Whether the sweep is there and does not reach a frequency.</summary>
    public bool Ends(long frequencyHz) => _sweep is { } sweep && !sweep.Covers(frequencyHz);

    /// <summary>Whether a tone is so close to the channel that it loses no more than the channel does.</summary>
    public bool IsClose(long frequencyHz) => Math.Abs(frequencyHz - _channelHz) <= _closeShare * _channelHz;

    /// <summary>The loss in dB; null where it is not known. The same tone's is one figure, however often it is asked for.</summary>
    public MeasuredFigure? Of(long frequencyHz)
    {
        if (!_known.TryGetValue(frequencyHz, out MeasuredFigure? loss))
        {
            loss = Find(frequencyHz);
            _known[frequencyHz] = loss;
        }

        return loss;
    }

    private MeasuredFigure? Find(long frequencyHz)
    {
        bool close = IsClose(frequencyHz);
        if (_sweep is not { } sweep || !sweep.Covers(frequencyHz))
        {
            return close ? MeasuredFigure.Exact(0) : null;
        }

        double over = Db(sweep.At(_channelHz).S21) - Db(sweep.At(frequencyHz).S21);
        return close ? MeasuredFigure.Exact(over) : MeasuredFigure.Read(over, _sources.Next(), _sigmaDb);
    }

    // A sweep of nothing at all is taken as 300 dB down, which no sweep reads.
    private static double Db(Complex s) => 20 * Math.Log10(Math.Max(s.Magnitude, 1e-15));
}
