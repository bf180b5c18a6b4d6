using Spurless.Design.Questions;
using Spurless.Workbench.Designs;

namespace Spurless.Workbench.Tests.Designs;

/// <summary>A mask in an address.</summary>
public class DesignWishTests
{
    private static readonly DesignQuestion _question = new()
    {
        Name = "any",
        PassFromHz = 144.9e6,
        PassToHz = 145.2e6,
        MostLossDb = 3.5,
        LeastReturnLossDb = 12,
        Reject = [new(153.35e6, 153.35e6, 18), new(459e6, 467e6, 50.5)],
    };

    [Fact]
    public void MaskOf_is_read_back_by_With()
    {
        string mask = DesignWish.MaskOf(_question);
        Assert.Equal("144.9-145.2,3.5,12;153.35,18;459-467,50.5", mask);
        DesignQuestion other = _question with { PassFromHz = 1, Reject = [], LeastReturnLossDb = null, MostLossDb = 1 };
        DesignQuestion read = DesignWish.With(mask, other)!;
        Assert.Equal(_question with { Reject = [] }, read with { Reject = [] });
        Assert.Equal(_question.Reject, read.Reject);
    }

    [Theory]
    [InlineData("")]
    [InlineData("144.9-145.2")]
    [InlineData("144.9-145.2,0")]
    [InlineData("144.9-145.2,3;153")]
    [InlineData("144.9-145.2,3;-5,20")]
    [InlineData("144.9-145.2,3;NaN,20")]
    [InlineData("144.9-145.2,3;1e3,20")]
    public void With_a_mask_that_is_none_is_nothing(string mask)
    {
        Assert.Null(DesignWish.With(mask, _question));
        Assert.Null(DesignWish.Of(key => key == "mask" ? mask : null).Mask);
    }

    [Fact]
    public void Of_leaves_out_what_cannot_be_read()
    {
        DesignWish wish = DesignWish.Of(static key => key switch { "margin" => "9", "q" => "-4", "power" => "much", _ => null });
        Assert.Equal(new DesignWish { MarginDb = 9 }, wish);
        Assert.Equal("9", wish.Query()["margin"]);
        Assert.Null(wish.Query()["q"]);
    }
}
