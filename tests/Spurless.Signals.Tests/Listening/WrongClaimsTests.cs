using Spurless.Signals.Recognition;
using Spurless.Signals.Recognition.Paging;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// What was claimed once of recordings that hold something else (hours of made recordings, MatrixTests), and must not be again.
/// </summary>
public sealed class WrongClaimsTests
{
    [Theory]
    [InlineData(SignalKind.Comb, 10_027, SignalKind.Afsk1200)]
    [InlineData(SignalKind.Voice, 10_048, SignalKind.Morse)]
    [InlineData(SignalKind.Voice, 110_059, SignalKind.Noise)]
    [InlineData(SignalKind.Voice, 110_059, SignalKind.Tone)]
    [InlineData(SignalKind.Voice, 110_122, SignalKind.Dtmf)]
    [InlineData(SignalKind.TwoLevelFsk, 110_068, SignalKind.Dcs)]
    [InlineData(SignalKind.Morse, 110_001, SignalKind.Tone)]
    [InlineData(SignalKind.Morse, 110_009, SignalKind.Tone)]
    public void Recording_isNotCalledWhatItIsNot(SignalKind made, int number, SignalKind strange) =>
        Assert.DoesNotContain(strange, Made.Hear(MadeKinds.Make(made, number)).Transmissions.SelectMany(static t => t.Kinds)
            .Select(static k => k.Kind));

    /// <summary>
    /// Words of all zeros and of all ones pass the check of ITU-R M.584 (a cyclic code holds both, with even parity), and a signal at rest
    /// reads as them: behind a sync word they are no proof of paging.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Follow_aSyncWordBeforeASignalAtRest_isNoPaging(int bit)
    {
        Assert.True(PagingCode.IsGood(0) && PagingCode.IsGood(uint.MaxValue));
        const int PerBit = 8;
        IEnumerable<int> sync = Enumerable.Range(0, 32).Select(static k => (int)(PagingCode.Sync >> (31 - k) & 1));
        float[] soft = [.. BitSignals.RandomBits(64, 1).Concat(sync).Concat(Enumerable.Repeat(bit, 16 * 32 + 40))
            .SelectMany(static b => Enumerable.Repeat(b == 1 ? 1f : -1f, PerBit))];
        Assert.Empty(new PagingReader(soft, null, true, PerBit).Follow((64 + 32) * PerBit - PerBit / 2, 0));
    }
}
