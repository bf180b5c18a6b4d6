using Spurless.Files.Diagnostics;

namespace Spurless.Files.Tests.Diagnostics;

public class RefusalTests
{
    [Theory]
    [InlineData("'x' has no unit; write x MHz", "'x' has no unit", "write x MHz")]
    [InlineData("'a; b' has no unit; write a MHz", "'a; b' has no unit", "write a MHz")]
    [InlineData("'x' is wrong", "'x' is wrong", "write another")]
    public void OfParser_takes_the_remedy_from_the_end(string problem, string what, string remedy)
    {
        Refusal refusal = Refusal.OfParser(problem, "write another");
        Assert.Equal((what, remedy), (refusal.What, refusal.Remedy));
        Assert.Equal($"{what}; {remedy}", refusal.ToString());
    }
}
