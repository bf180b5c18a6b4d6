using Spurless.Mixing.Levels;
using Spurless.Mixing.Search.Band;

namespace Spurless.Mixing.Search;

/// <summary>Finds the products on every channel of a band by a handful of searches instead of one a channel.</summary>
/// <remarks>
/// Products without the moving emitter are found by one receiver as wide as the band. Of those with it, taken c times, the rest must add up
/// to <c>f_r - c f_m</c>, which is a straight line over the channels: one wide receiver for each c, in a search of the rest that is shorter
/// by |c| orders. Where the line is level (c = 1, the transmitter at a fixed distance) a product lands on every channel alike and one
/// channel tells of all. Only where the rest adds up to nearly nothing, next to 0 Hz, channels are searched one by one.
/// </remarks>
public static class BandSearch
{
    /// <summary>Searches.</summary>
    /// <param name="band">What to search.</param>
    /// <param name="search">The search to use.</param>
    /// <param name="sink">Gets the products, from one thread at a time: each once for every channel it can hit.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>False where the sink stopped it.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    /// <exception cref="ArgumentException">The problem is malformed (a bug of the caller).</exception>
    public static bool Run(
        BandProblem band,
        IProductSearch search,
        IBandSink sink,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(search);
        ArgumentNullException.ThrowIfNull(sink);
        band.Validate();
        return new Session(band, search, sink, progress, cancellationToken).Run();
    }

    private sealed class Session(
        BandProblem band, IProductSearch search, IBandSink sink, IProgress<SearchProgress>? progress, CancellationToken cancel)
    {
        private readonly SearchProblem _all = band.Search;
        private readonly SortedDictionary<int, HashSet<int>> _oneByOne = [];
        private bool _stopped;
        private long _found;

        public bool Run()
        {
            if (!band.OnlyWithMoving)
            {
                Without();
            }

            Tell(0.4);
            if (band.Moving is not null)
            {
                With();
            }

            Tell(1);
            return !_stopped;
        }

        private void Tell(double fraction)
        {
            cancel.ThrowIfCancellationRequested();
            progress?.Report(new SearchProgress(fraction, _found));
        }

        /// <summary>Products of the emitters that stay.</summary>
        private void Without()
        {
            BandWindow window = new(BandLine.Of(band, 0), 0, band.Channels);
            BandOthers others = BandOthers.Of(band, besides: false);
            SearchProblem wide = others.Search with { Receivers = [window.Receiver(others.Search.Receivers[0], 0)] };
            search.Run(wide, new Mapped(this, others, [window]), null, cancel);
        }

        /// <summary>Products in which the moving emitter takes part.</summary>
        private void With()
        {
            BandOthers others = BandOthers.Of(band, besides: true);
            for (int times = 1; times <= _all.MaxOrder && !_stopped; times++)
            {
                List<BandWindow> windows = [];
                foreach (int c in (int[])[times, -times])
                {
                    BandLine line = BandLine.Of(band, c);
                    if (line.SlopeHz == 0 && band.ReceiverHz(0) > ClearHz(0))
                    {
                        OnEvery(c);
                        continue;
                    }

                    HashSet<int> left = [];
                    windows.AddRange(BandWindow.Of(band, line, ClearHz(times), others.MostHz(_all.MaxOrder - times), left));
                    if (band.ReceiverHz(0) <= ClearHz(0))
                    {
                        // So low a receiver that a product of nothing or less would count as a hit.
                        windows.Clear();
                        left = [.. Enumerable.Range(0, band.Channels)];
                    }

                    if (left.Count > 0)
                    {
                        _oneByOne[c] = left;
                    }
                }

                WithOne(others, windows);
                WithMore(others, windows, times);
                Tell(0.4 + (0.4 * times / _all.MaxOrder));
            }

            OneByOne();
        }

        /// <summary>Half of what a product of the highest order can be wide, with the channel.</summary>
        private long ClearHz(int times)
        {
            long widest = 0;
            foreach (SearchEmitter emitter in _all.Emitters)
            {
                widest = Math.Max(widest, emitter.BandwidthHz);
            }

            long own = times * _all.Emitters[band.Moving!.Value].BandwidthHz;
            return ((band.Receiver.ChannelHz + own + ((_all.MaxOrder - times) * widest)) / 2) + 1;
        }

        /// <summary>A product that lands on every channel alike: one channel tells.</summary>
        private void OnEvery(int coefficient) =>
            search.Run(_all, new OfMoving(this, [coefficient], 0, band.Channels), null, cancel);

        /// <summary>The moving emitter with one other, taken once: too short for a search.</summary>
        private void WithOne(BandOthers others, List<BandWindow> windows)
        {
            if (_all.MaxSignals < 2)
            {
                return;
            }

            foreach (BandWindow window in windows)
            {
                int order = Math.Abs(window.Line.Coefficient) + 1;
                for (int i = 0; order >= _all.MinOrder && order <= _all.MaxOrder && i < others.Index.Length; i++)
                {
                    int sign = window.Mirrored ? -1 : 1;
                    Hit(window, [others.Index[i]], [sign], sign * others.Search.Emitters[i].FrequencyHz);
                }
            }
        }

        /// <summary>The moving emitter with two orders or more of others.</summary>
        private void WithMore(BandOthers others, List<BandWindow> windows, int times)
        {
            int most = _all.MaxOrder - times;
            if (windows.Count == 0 || most < 2 || _all.MaxSignals < 2 || others.Index.Length == 0 || _stopped)
            {
                return;
            }

            SearchReceiver like = others.With(band, times, most);
            SearchProblem rest = others.Search with
            {
                MinOrder = Math.Max(2, _all.MinOrder - times),
                MaxOrder = most,
                MaxSignals = _all.MaxSignals - 1,
                Receivers = [.. windows.Select(w => w.Receiver(like, _all.Emitters[Moving].BandwidthHz))],
            };
            search.Run(rest, new Mapped(this, others, windows), null, cancel);
        }

        /// <summary>Channels on which the rest adds up to nearly nothing.</summary>
        private void OneByOne()
        {
            int done = 0;
            int[] channels = [.. _oneByOne.Values.SelectMany(static j => j).Distinct().Order()];
            foreach (int j in channels)
            {
                SearchProblem one = _all with
                {
                    Emitters = _all.Emitters.SetItem(
                        band.Moving!.Value, _all.Emitters[band.Moving.Value] with { FrequencyHz = band.MovingHz(j) }),
                    Receivers = [band.Receiver with { FrequencyHz = band.ReceiverHz(j) }],
                };
                HashSet<int> coefficients = [.. _oneByOne.Where(c => c.Value.Contains(j)).Select(static c => c.Key)];
                search.Run(one, new OfMoving(this, coefficients, j, j + 1), null, cancel);
                Tell(0.8 + (0.2 * ++done / channels.Length));
                if (_stopped)
                {
                    return;
                }
            }
        }

        /// <summary>Hands on a product of the moving emitter, or of none, and others whose sum is known.</summary>
        private bool Hit(BandWindow window, ReadOnlySpan<int> emitters, ReadOnlySpan<int> coefficients, long sumHz)
        {
            int c = window.Line.Coefficient;
            int signals = emitters.Length + (c == 0 ? 0 : 1);
            Span<int> who = stackalloc int[Multinomial.MaxOrder];
            Span<int> times = stackalloc int[Multinomial.MaxOrder];
            emitters.CopyTo(who);
            coefficients.CopyTo(times);
            if (c != 0)
            {
                (who[signals - 1], times[signals - 1]) = (band.Moving!.Value, c);
            }

            long width = band.Receiver.ChannelHz;
            for (int t = 0; t < signals; t++)
            {
                width += Math.Abs(times[t]) * _all.Emitters[who[t]].BandwidthHz;
            }

            (int from, int to) = window.Line.Hit(sumHz, width, window.From, window.To);
            (long level, int stage) = from < to ? BandLevel.Of(_all, who[..signals], times[..signals]) : default;
            return from >= to || level < band.Receiver.ThresholdMicroDbm
                || Give(new ProductRecord(0, who[..signals], times[..signals], false, level, stage), from, to);
        }

        private bool Give(in ProductRecord product, int from, int to)
        {
            _found++;
            _stopped |= !sink.Add(product, from, to);
            return !_stopped;
        }

        /// <summary>Takes what the wide receivers find, and tells on which channels it is.</summary>
        private sealed class Mapped(Session session, BandOthers others, IReadOnlyList<BandWindow> windows) : IProductSink
        {
            public bool Add(in ProductRecord product)
            {
                BandWindow window = windows[product.Receiver];
                int sign = window.Line.Coefficient != 0 && window.Mirrored ? -1 : 1;
                Span<int> who = stackalloc int[Multinomial.MaxOrder];
                Span<int> times = stackalloc int[Multinomial.MaxOrder];
                for (int t = 0; t < product.Signals; t++)
                {
                    (who[t], times[t]) = (others.Index[product.Emitter(t)], sign * product.Coefficient(t));
                }

                return session.Hit(window, who[..product.Signals], times[..product.Signals], sign * product.FrequencyHz(others.Search));
            }
        }

        /// <summary>Takes what an ordinary search finds, where the moving emitter takes part as often as wanted.</summary>
        private sealed class OfMoving(Session session, HashSet<int> coefficients, int from, int to) : IProductSink
        {
            public bool Add(in ProductRecord product)
            {
                for (int t = 0; t < product.Signals; t++)
                {
                    if (product.Emitter(t) == session.Moving)
                    {
                        return !coefficients.Contains(product.Coefficient(t)) || session.Give(product, from, to);
                    }
                }

                return true;
            }
        }

        private int Moving => band.Moving!.Value;
    }
}
