using Spurless.Tests.Common;

namespace Spurless.Circuits.Tests.Processors;

/// <summary>The kernels work in eights: with 512-bit instructions in one piece, with 256-bit ones in two, without them in four.</summary>
public class VectorPathTests
{
    [Fact]
    public void Instructions_in_use_are_those_allowed() => SuiteAgain.AssertInstructionsAreThoseAllowed();

    [Theory]
    [Trait("Category", "Long")]
    [InlineData("DOTNET_EnableAVX512")]
    [InlineData("DOTNET_EnableAVX2")]
    public Task Suite_passes_without_the_wider_instructions(string instructions) => SuiteAgain.AssertPassesWithoutAsync(
        typeof(VectorPathTests).Assembly.Location, [instructions], TestContext.Current.CancellationToken);
}
