namespace Spurless.Mixing.Search.Band;

/// <summary>
/// A run of channels whose products with one coefficient of the moving emitter are found by one receiver of a wide channel.
/// </summary>
/// <param name="Line">Where the others must add up to.</param>
/// <param name="From">First channel.</param>
/// <param name="To">One after the last.</param>
internal sealed record BandWindow(BandLine Line, int From, int To)
{
    /// <summary>Whether the others add up to something under 0, so that the search finds their mirror image.</summary>
    public bool Mirrored => Line.At(From) < 0;

    /// <summary>
    /// The receiver that finds them all: its channel holds the window, and round each end the receiver's own channel and what the moving
    /// emitter occupies.
    /// </summary>
    /// <param name="like">What else it is.</param>
    /// <param name="movingHz">Occupied bandwidth of the moving emitter in hertz.</param>
    public SearchReceiver Receiver(SearchReceiver like, long movingHz)
    {
        long one = Math.Abs(Line.At(From));
        long other = Math.Abs(Line.At(To - 1));
        return like with
        {
            FrequencyHz = Math.Min(one, other) + (Math.Abs(one - other) / 2),
            ChannelHz = Math.Abs(one - other) + like.ChannelHz + (Math.Abs(Line.Coefficient) * movingHz) + 2,
        };
    }

    /// <summary>
    /// The channels for which that works: the others stay clear of 0 Hz, where a search finds nothing, by more than anything that can hit
    /// is wide. The rest is left to be searched channel by channel.
    /// </summary>
    /// <param name="band">The band.</param>
    /// <param name="line">The line.</param>
    /// <param name="clearHz">So far from 0 they must stay, in hertz.</param>
    /// <param name="mostHz">The most that the others can add up to, in hertz: a channel that asks for more is hit by nothing.</param>
    /// <param name="left">Takes the channels that are left.</param>
    public static IEnumerable<BandWindow> Of(BandProblem band, BandLine line, long clearHz, long mostHz, ICollection<int> left)
    {
        int start = -1;
        int side = 0;
        for (int j = 0; j <= band.Channels; j++)
        {
            long at = j < band.Channels ? line.At(j) : 0;
            bool out0 = Math.Abs(at) - clearHz > mostHz;
            int now = j == band.Channels || out0 || Math.Abs(at) <= clearHz || Math.Abs(at) > SearchProblem.MaxFrequencyHz
                ? 0
                : Math.Sign(at);
            if (now == 0 && j < band.Channels && !out0)
            {
                left.Add(j);
            }

            if (now != side)
            {
                if (side != 0)
                {
                    yield return new BandWindow(line, start, j);
                }

                (start, side) = (j, now);
            }
        }
    }
}
