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
        TapsInTurn turn = new(taps, band, captureS);
        bool ended = false;
        for (long block = 1; !ended; block++)
        {
            turn.Begin();
            int wanted = band.Wanted;
            int got = recording.Read(band.Space);
            turn.Take(got, got < wanted);
            ended = got < wanted && band.Position / band.RateHz > captureS + 1;
            turn.Analyse(ended, cancellationToken);
            if (block % 64 == 0)
            {
                cancellationToken.ThrowIfCancellationRequested();
                report(Math.Min(captureS, band.Position / band.RateHz));
            }
        }

        return taps.SelectMany(static t => t.Transmissions()).ToList();
    }

    /// <summary>The channels of a capture: those still to come, those that are on, those whose piece is full or that ended.</summary>
    private sealed class TapsInTurn
    {
        private readonly Channeliser _band;
        private readonly double _captureS;
        private readonly List<Tap> _waiting;
        private readonly List<Tap> _on = [];
        private readonly List<Tap> _ready = [];

        public TapsInTurn(List<Tap> taps, Channeliser band, double captureS)
        {
            _band = band;
            _captureS = captureS;
            _waiting = [.. taps.OrderBy(static t => t.FromS)];
            double most = taps.Count == 0 ? 1 : taps.Max(
                t => taps.Where(o => o.Activity.Span.Overlap(t.Activity.Span) > 0).Sum(static o => o.RateHz));
            foreach (Tap tap in taps)
            {
                tap.PieceS = Math.Clamp(Budget / most, LeastPieceS, MostPieceS);
            }
        }

        /// <summary>Turns to those whose transmission the next block reaches.</summary>
        public void Begin()
        {
            double atS = (_band.Position - _band.Size / 4.0) / _band.RateHz;
            for (int i = _waiting.Count - 1; i >= 0; i--)
            {
                if (_waiting[i].FromS <= atS + _band.Size / _band.RateHz)
                {
                    _on.Add(_waiting[i]);
                    _waiting.RemoveAt(i);
                }
            }
        }

        /// <summary>Hands a block on to those that are on, and passes it.</summary>
        public void Take(int got, bool isShort)
        {
            if (_on.Count == 0)
            {
                _band.Pass(got);
                return;
            }

            _band.Transform(got);
            for (int i = _on.Count - 1; i >= 0; i--)
            {
                Tap tap = _on[i];
                tap.Take(_band);
                if (tap.EndsBy(_band) || isShort && _band.Position / _band.RateHz > _captureS)
                {
                    tap.Last = true;
                    _ready.Add(tap);
                    _on.RemoveAt(i);
                }
                else if (tap.IsFull)
                {
                    _ready.Add(tap);
                }
            }

            _band.Advance();
        }

        /// <summary>Analyses what is ready, where that is enough to be worth it, must be, or is all.</summary>
        public void Analyse(bool ended, CancellationToken cancellationToken)
        {
            if (ended)
            {
                _on.ForEach(static t => t.Last = true);
                _ready.AddRange(_on);
                _on.Clear();
            }

            if (_ready.Count < 2 * AtOnce && !ended && !_ready.Exists(static r => !r.Last))
            {
                return;
            }

            int done = 0;
            Parallel.ForEach(_ready, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = cancellationToken }, tap =>
            {
                tap.Analyse();
                if (Interlocked.Increment(ref done) % AtOnce == 0)
                {
                    // Arrays of megabytes are left by the collector until much has piled up.
                    GC.Collect(2, GCCollectionMode.Forced, blocking: true, compacting: false);
                }
            });
            _ready.Clear();
        }
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

        /// <summary>How long a piece is that is analysed at once, in seconds.</summary>
        public double PieceS { get; set; }

        public bool IsFull => _have / RateHz >= PieceS + LookBackS;

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
                // As much as can come, at once; an array that grows leaves as much again behind.
                double mostS = Math.Min(PieceS + LookBackS, Activity.Span.LengthS + 2 * MarginS);
                Array.Resize(ref _pairs, 2 * Math.Max(_have + _channel.PerBlock, (int)(mostS * RateHz) + 4 * _channel.PerBlock));
            }

            _channel.Take(_pairs.AsSpan(2 * _have, 2 * _channel.PerBlock));
            _have += _channel.PerBlock;
        }

        public void Analyse()
        {
            double startS = _capture.StartS + _heldFromS;
            double ownTo = Last ? double.PositiveInfinity : startS + _have / RateHz - LookBackS;
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
