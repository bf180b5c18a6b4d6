using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;

namespace Spurless.Signals.Listening;

/// <summary>
/// Listens to a band: goes through it once to see what was on the air, and once more to take each of those channels out, demodulate it and
/// recognise what is on it. Memory is bounded: long transmissions are analysed piece by piece, the shorter the more channels are on at
/// once.
/// </summary>
public static class BandListener
{
    private const double MarginS = 0.25;
    private const double LookBackS = 3;
    private const double MostPieceS = 40;
    private const double LeastPieceS = 6;
    private const double Budget = 8e6;
    private const double ScanShare = 0.3;
    private const int AtOnce = 2;
    private const int PictureColumns = 668;
    private const int PictureRows = 256;

    /// <summary>Listens to a recorded band.</summary>
    /// <param name="recording">The recording, complex, each capture with its centre.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the listening.</param>
    public static Heard Listen(Recording recording, IProgress<ListenProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(recording);
        double duration = recording.DurationS;
        double rate = recording.Format.RateHz;
        SpectrogramBuilder picture = new(PictureColumns, PictureRows, duration, recording.Recorded);
        List<Transmission> all = [];
        List<(Capture Capture, List<Activity> Activities)> captures = [];
        recording.Rewind();
        while (recording.Next() is { } capture)
        {
            captures.Add((capture, BandScan.Run(
                recording, capture, picture, s =>
                    progress?.Report(new ListenProgress(ScanShare * (capture.StartS + s), duration)), cancellationToken)));
        }

        recording.Rewind();
        foreach ((Capture capture, List<Activity> activities) in captures)
        {
            recording.Next();
            all.AddRange(Channels(recording, capture, activities, s => progress?.Report(
                new ListenProgress(ScanShare * duration + (1 - ScanShare) * (capture.StartS + s), duration)), cancellationToken));
        }

        double[] centres = [.. captures.Select(static c => c.Capture.CentreHz ?? 0)];
        return new Heard(
            duration,
            recording.Start,
            true,
            centres.Min() - rate / 2,
            centres.Max() + rate / 2,
            [.. all.OrderBy(static t => t.StartS).ThenBy(static t => t.CentreHz)],
            picture.Build())
        {
            Recorded = recording.Recorded,
        };
    }

    private static List<Transmission> Channels(
        Recording recording, Capture capture, List<Activity> activities, Action<double> report, CancellationToken cancellationToken)
    {
        Channeliser band = new(recording.Format.RateHz);
        double captureS = capture.Frames / recording.Format.RateHz;
        List<Tap> taps = [.. activities.Select(a => new Tap(band, a, capture))];
        double most = taps.Count == 0 ? 1 : taps.Max(
            t => taps.Where(o => o.Activity.Span.Overlap(t.Activity.Span) > 0).Sum(static o => o.RateHz));
        double pieceS = Math.Clamp(Budget / most, LeastPieceS, MostPieceS);
        List<Tap> waiting = [.. taps.OrderBy(static t => t.FromS)];
        List<Tap> on = [];
        List<Tap> ready = [];
        long block = 0;
        while (true)
        {
            double atS = (band.Position - band.Size / 4.0) / band.RateHz;
            for (int i = waiting.Count - 1; i >= 0; i--)
            {
                if (waiting[i].FromS <= atS + band.Size / band.RateHz)
                {
                    on.Add(waiting[i]);
                    waiting.RemoveAt(i);
                }
            }

            int wanted = band.Wanted;
            int got = recording.Read(band.Space);
            if (on.Count > 0)
            {
                band.Transform(got);
                for (int i = on.Count - 1; i >= 0; i--)
                {
                    on[i].Take(band);
                    if (on[i].EndsBy(band) || got < wanted && band.Position / band.RateHz > captureS)
                    {
                        on[i].Last = true;
                        ready.Add(on[i]);
                        on.RemoveAt(i);
                    }
                    else if (on[i].HeldS >= pieceS + LookBackS)
                    {
                        ready.Add(on[i]);
                    }
                }

                band.Advance();
            }
            else
            {
                band.Pass(got);
            }

            bool ended = got < wanted && band.Position / band.RateHz > captureS + 1;
            if (ended)
            {
                foreach (Tap tap in on)
                {
                    tap.Last = true;
                    ready.Add(tap);
                }

                on.Clear();
            }

            if (ready.Count >= 2 * AtOnce || ready.Exists(static r => !r.Last) || ended)
            {
                Parallel.ForEach(ready, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = cancellationToken },
                    static tap => tap.Analyse());
                ready.Clear();
            }

            if (++block % 64 == 0)
            {
                cancellationToken.ThrowIfCancellationRequested();
                report(Math.Min(captureS, band.Position / band.RateHz));
            }

            if (ended)
            {
                break;
            }
        }

        return taps.SelectMany(static t => t.Transmissions()).ToList();
    }

    /// <summary>One channel while its transmission lasts.</summary>
    private sealed class Tap
    {
        private readonly Channeliser.Channel _channel;
        private readonly Capture _capture;
        private readonly double _passHz;
        private readonly List<ChannelAnalysis> _pieces = [];
        private float[] _pairs = [];
        private int _have;
        private double _heldFromS = double.NaN;
        private double _ownFromS = double.NegativeInfinity;

        public Tap(Channeliser band, Activity activity, Capture capture)
        {
            Activity = activity;
            _capture = capture;
            double half = Math.Max(5_000, activity.WidthHz / 2 + 1_500);
            double edge = Math.Max(1_500, 0.15 * half);
            _passHz = 2 * half + edge;
            _channel = new Channeliser.Channel(band, activity.MiddleHz, half, edge);
        }

        public Activity Activity { get; }

        public double RateHz => _channel.RateHz;

        public double FromS => Activity.Span.FromS - MarginS;

        public double HeldS => _have / RateHz;

        public bool Last { get; set; }

        public bool EndsBy(Channeliser band) => (band.Position + band.Size / 2.0 - band.Size / 4.0) / band.RateHz > Activity.Span.ToS
            + MarginS;

        public void Take(Channeliser band)
        {
            if (double.IsNaN(_heldFromS))
            {
                // The middle half of a block begins a quarter in; the first block begins a quarter before the recording.
                _heldFromS = band.Position / band.RateHz;
            }

            if (_pairs.Length < 2 * (_have + _channel.PerBlock))
            {
                Array.Resize(ref _pairs, Math.Max(2 * _pairs.Length, 2 * (_have + 64 * _channel.PerBlock)));
            }

            _channel.Take(_pairs.AsSpan(2 * _have, 2 * _channel.PerBlock));
            _have += _channel.PerBlock;
        }

        public void Analyse()
        {
            double startS = _capture.StartS + _heldFromS;
            double ownTo = Last ? double.PositiveInfinity : startS + HeldS - LookBackS;
            if (ChannelAnalyser.Analyse(_pairs.AsSpan(0, 2 * _have), RateHz, startS, Activity, _passHz,
                new Span(_ownFromS, ownTo)) is { } piece)
            {
                _pieces.Add(piece);
            }

            int keep = Last ? 0 : Math.Min(_have, (int)(2 * LookBackS * RateHz));
            _pairs.AsSpan(2 * (_have - keep), 2 * keep).CopyTo(_pairs);
            _heldFromS += (_have - keep) / RateHz;
            _have = keep;
            _ownFromS = ownTo;
            if (Last)
            {
                _pairs = [];
            }
        }

        public IEnumerable<Transmission> Transmissions()
        {
            if (_pieces.Count == 0)
            {
                yield break;
            }

            ChannelAnalysis main = _pieces.MaxBy(static p => p.On.LengthS)!;
            Span on = new(_pieces.Min(static p => p.On.FromS), _pieces.Max(static p => p.On.ToS));
            double captureS = _capture.StartS;
            yield return new Transmission
            {
                StartS = Math.Max(captureS, on.FromS),
                EndS = on.ToS,
                CentreHz = (_capture.CentreHz ?? 0) + main.OffsetHz,
                WidthHz = main.WidthHz,
                LevelDb = 10 * Math.Log10(main.Power),
                SnrDb = 10 * Math.Log10(main.Power / main.NoisePower),
                Modulation = main.Modulation,
                DeviationHz = main.DeviationHz,
                Kinds = Grouping.Kinds([.. _pieces.SelectMany(static p => p.Findings)]),
            };
        }
    }
}
