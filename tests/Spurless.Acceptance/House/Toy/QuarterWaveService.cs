using Spurless.Files.Diagnostics;
using Spurless.Numerics;
using Spurless.Sites;

namespace Spurless.Acceptance.House.Toy;

/// <summary>Answers how long a quarter wave is. It takes no time: nothing to watch and nothing to stop.</summary>
public static class QuarterWaveService
{
    /// <summary>Answers a question: <c>v c / (4 f)</c>.</summary>
    public static Outcome<QuarterWaveAnswer> Ask(QuarterWaveQuestion question) => question.Velocity is > 0 and <= 1
        ? new QuarterWaveAnswer(question, question.Velocity * PhysicalConstants.SpeedOfLight / (4 * question.FrequencyHz))
        : new Refusal(FormattableString.Invariant($"no wave travels at {question.Velocity} of the speed of light"),
            "write a share such as 0.66");
}
