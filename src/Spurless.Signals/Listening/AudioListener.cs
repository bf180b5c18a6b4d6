using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition;
using Spurless.Signals.Recordings;

namespace Spurless.Signals.Listening;

/// <summary>
/// Listens to audio of any length in bounded memory: stretches of 40 s (up to a minute at once where that is all), each with what lies
/// before and behind it, two at a time. The result does not depend on how many run at once.
/// </summary>
public static class AudioListener
{
    private const double OwnS = 40;
    private const double ShortS = 60;
    private const double BeforeS = 3;
    private const double BehindS = 6;
    private const double MostRateHz = 200_000;
    private const int AtOnce = 2;
    private const int PictureColumns = 668;
    private const int PictureRows = 160;

    /// <summary>Listens to a recording of audio.</summary>
    /// <param name="recording">The recording, not complex.</param>
    /// <param name="progress">Told after each stretch, or null.</param>
    /// <param name="cancellationToken">Stops the listening.</param>
    public static Heard Listen(Recording recording, IProgress<ListenProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(recording);
        double rate = recording.Format.RateHz;
        int every = (int)Math.Ceiling(rate / MostRateHz);
        double working = rate / every;
        double duration = recording.DurationS;
        Gathering gathering = new(new SpectrogramBuilder(PictureColumns, PictureRows, duration, recording.Recorded), duration, progress);
        recording.Rewind();
        while (recording.Next() is { } capture)
        {
            Resampler? toWide = working == Stretch.WideRate ? null : new Resampler(working, Stretch.WideRate);
            InOrder.Run(Pieces(recording, capture, every, working), AtOnce, piece => Analyse(piece, working, toWide), gathering.Add,
                cancellationToken);
        }

        return new Heard(duration, recording.Start, false, 0, 4_800, Grouping.OfAudio(gathering.Findings, gathering.OnAir, duration),
            gathering.Picture.Build())
        {
            Recorded = recording.Recorded,
        };
    }

    private static (Stretch Stretch, AudioAnalysis Analysis) Analyse(Piece piece, double rate, Resampler? toWide)
    {
        List<Span> holes = AudioHoles.Find(piece.Audio, rate);
        Stretch stretch = Stretch.AtWideRate(toWide?.Convert(piece.Audio) ?? piece.Audio, 0.46 * rate, piece.StartS, piece.OwnFromS,
            piece.OwnToS, holes);
        return (stretch, AudioAnalyser.Analyse(stretch));
    }

    private static IEnumerable<Piece> Pieces(Recording recording, Capture capture, int every, double rate)
    {
        int own = (int)((capture.Frames / recording.Format.RateHz <= ShortS ? ShortS : OwnS) * rate);
        int before = (int)(BeforeS * rate);
        int behind = (int)(BehindS * rate);
        float[] buffer = new float[before + own + behind];
        int have = 0;
        int kept = 0;
        double startS = capture.StartS;
        double ownFrom = double.NegativeInfinity;
        while (true)
        {
            have += Read(recording, buffer.AsSpan(have), every);
            bool last = have < buffer.Length;
            if (have <= kept)
            {
                yield break;
            }

            double ownTo = last ? double.PositiveInfinity : startS + (before + own) / rate;
            yield return new Piece(buffer.AsSpan(0, have).ToArray(), startS, ownFrom, ownTo);
            if (last)
            {
                yield break;
            }

            // What comes before the next stretch's own part, and behind this one's, is kept.
            int move = own;
            buffer.AsSpan(move).CopyTo(buffer);
            have -= move;
            kept = before;
            startS += move / rate;
            ownFrom = ownTo;
        }
    }

    /// <summary>Reads on; of recordings faster than need be the mean of several samples counts as one.</summary>
    private static int Read(Recording recording, Span<float> to, int every)
    {
        if (every == 1)
        {
            return recording.Read(to);
        }

        float[] raw = new float[every * 4_096];
        int done = 0;
        while (done < to.Length)
        {
            int got = recording.Read(raw.AsSpan(0, Math.Min(raw.Length, every * (to.Length - done)))) / every;
            for (int k = 0; k < got; k++)
            {
                float sum = 0;
                for (int j = 0; j < every; j++)
                {
                    sum += raw[k * every + j];
                }

                to[done++] = sum / every;
            }

            if (got == 0)
            {
                break;
            }
        }

        return done;
    }

    /// <summary>Audio as it was read.</summary>
    private sealed record Piece(float[] Audio, double StartS, double OwnFromS, double OwnToS);

    /// <summary>What was heard so far, piece by piece in order.</summary>
    private sealed class Gathering(SpectrogramBuilder picture, double duration, IProgress<ListenProgress>? progress)
    {
        private readonly PowerSpectrum _spectrum = new(512, 512);
        private readonly float[] _power = new float[256];
        private int _pieces;

        public SpectrogramBuilder Picture => picture;

        public List<Finding> Findings { get; } = [];

        public List<Span> OnAir { get; } = [];

        public void Add((Stretch Stretch, AudioAnalysis Analysis) done)
        {
            (Stretch stretch, AudioAnalysis analysis) = done;
            Findings.AddRange(analysis.Findings);
            OnAir.AddRange(analysis.OnAir.Select(s => new Span(
                Math.Max(s.FromS, stretch.OwnFromS - 0.2), Math.Min(s.ToS, stretch.OwnToS + 0.2))).Where(static s => s.LengthS > 0));
            picture.AddAudio(stretch.Narrow, stretch.StartS, stretch.OwnFromS, stretch.OwnToS, _spectrum, _power);
            if (++_pieces % AtOnce == 0)
            {
                // Arrays of megabytes are left by the collector until much has piled up: hours of recording must not.
                GC.Collect(2, GCCollectionMode.Forced, blocking: true, compacting: false);
            }

            progress?.Report(new ListenProgress(
                Math.Min(duration, Math.Min(stretch.OwnToS, stretch.StartS + stretch.LengthS)), duration));
        }
    }
}
