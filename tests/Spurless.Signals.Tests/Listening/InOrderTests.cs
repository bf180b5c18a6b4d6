using Spurless.Signals.Listening;

namespace Spurless.Signals.Tests.Listening;

/// <summary>Pieces of a recording are worked on beside each other, and what comes of them is as if one had come after the other.</summary>
public sealed class InOrderTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public void Run_handsOnInTheSourcesOrder_howeverLongEachTakes(int atOnce)
    {
        int[] waits = [.. Enumerable.Range(0, 60).Select(static i => i * 7 % 11)];
        List<int> taken = [];
        InOrder.Run(
            Enumerable.Range(0, waits.Length),
            atOnce,
            i =>
            {
                Thread.Sleep(waits[i]);
                return i * i;
            },
            taken.Add,
            CancellationToken.None);
        Assert.Equal(Enumerable.Range(0, waits.Length).Select(static i => i * i), taken);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Run_asksForNoMoreThanItWorksOn(int atOnce)
    {
        // What is read ahead stands in memory: of a recording of hours that must stay a few pieces.
        int open = 0;
        int most = 0;
        Lock gate = new();
        IEnumerable<int> Source()
        {
            for (int i = 0; i < 40; i++)
            {
                lock (gate)
                {
                    most = Math.Max(most, ++open);
                }

                yield return i;
            }
        }

        InOrder.Run(
            Source(),
            atOnce,
            i =>
            {
                Thread.Sleep(1);
                lock (gate)
                {
                    open--;
                }

                return i;
            },
            static _ => { },
            CancellationToken.None);
        Assert.InRange(most, 1, atOnce);
    }

    [Fact]
    public void Run_overNothing_takesNothing() =>
        InOrder.Run(Array.Empty<int>(), 2, static i => i, static _ => Assert.Fail("there was nothing"), CancellationToken.None);

    [Fact]
    public void Run_throwsWhatWorkingThrew_andNotThatItWasDoneBySeveral() =>
        Assert.Equal("the seventh", Assert.Throws<InvalidDataException>(() => InOrder.Run(
            Enumerable.Range(1, 50), 2, static i => i == 7 ? throw new InvalidDataException("the seventh") : i, static _ => { },
            CancellationToken.None)).Message);

    [Fact]
    public void Run_throwsWhatReadingThrew()
    {
        static IEnumerable<int> Broken()
        {
            yield return 1;
            throw new EndOfStreamException("cut off");
        }

        Assert.Equal("cut off", Assert.Throws<EndOfStreamException>(() => InOrder.Run(
            Broken(), 2, static i => i, static _ => { }, CancellationToken.None)).Message);
    }

    [Fact]
    public void Run_stopsWhenTold()
    {
        using CancellationTokenSource stop = new();
        int worked = 0;
        Assert.ThrowsAny<OperationCanceledException>(() => InOrder.Run(
            Enumerable.Range(0, 100_000),
            2,
            i =>
            {
                if (Interlocked.Increment(ref worked) == 10)
                {
                    stop.Cancel();
                }

                return i;
            },
            static _ => { },
            stop.Token));
        Assert.InRange(worked, 10, 50_000);
    }
}
