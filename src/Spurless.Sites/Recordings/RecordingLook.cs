namespace Spurless.Sites.Recordings;

/// <summary>What the head of a recording says.</summary>
/// <param name="DurationS">Its length in seconds.</param>
/// <param name="RateHz">Samples a second.</param>
public sealed record RecordingLook(double DurationS, double RateHz);
