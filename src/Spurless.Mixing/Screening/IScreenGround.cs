namespace Spurless.Mixing.Screening;

/// <summary>The ground between the emitters and receivers of a screening. Asked by many threads at once.</summary>
public interface IScreenGround
{
    /// <summary>A path over ground loses at least what free space does, less this, in dB: what no emitter is left out by.</summary>
    const double LeastUnderFreeSpaceDb = 1;

    /// <summary>Loss between isotropic antennas over the ground, in dB.</summary>
    /// <param name="emitter">Index of the emitter in the list that the field was made of.</param>
    /// <param name="receiver">The receiver.</param>
    /// <returns>The loss, or NaN where the ground between, or a height, is not known.</returns>
    double LossDb(int emitter, ScreenReceiver receiver);
}
