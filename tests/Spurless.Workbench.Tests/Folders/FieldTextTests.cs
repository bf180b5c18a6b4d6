using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public class FieldTextTests
{
    private const string Site = """
        # our hill
        spurless: 1
        receivers:
          - name: input   # the deaf one
            antenna: { gain: 6 dBd }
            selectivity: [0 dB at 145 MHz, 25 dB at 160 MHz]
        emitters:
          - name: pager
            level: { input: -21 dBm }
        """;

    [Theory]
    [InlineData("receivers[0].name", "input")]
    [InlineData("receivers[0].antenna.gain", "6 dBd")]
    [InlineData("receivers[0].selectivity", "[0 dB at 145 MHz, 25 dB at 160 MHz]")]
    [InlineData("emitters[0].level", "{ input: -21 dBm }")]
    [InlineData("emitters[0].level.input", "-21 dBm")]
    [InlineData("emitters[0].power", null)]
    [InlineData("emitters[1].name", null)]
    public void ValueOf_gives_what_one_would_type(string field, string? value) => Assert.Equal(value, FieldText.ValueOf(Site, field));

    [Theory]
    [InlineData("receivers[0].name", "other", "name: input ", "name: other ")]
    [InlineData("receivers[0].antenna.height", "20 m", "{ gain: 6 dBd }", "{ gain: 6 dBd, height: 20 m }")]
    [InlineData("receivers[0].antenna.gain", "", "    antenna: { gain: 6 dBd }\n", "")]
    [InlineData("emitters[0].level", "-30 dBm", "{ input: -21 dBm }", "-30 dBm")]
    [InlineData("emitters[0].level", "{ input: -30 dBm, other: -40 dBm }", "{ input: -21 dBm }", "{ input: -30 dBm, other: -40 dBm }")]
    public void TrySet_changes_that_one_thing(string field, string value, string was, string becomes)
    {
        Assert.True(FieldText.TrySet(Site, field, value, out string? edited, out string? problem), problem);
        Assert.Equal(Site.Replace(was, becomes, StringComparison.Ordinal), edited);
    }

    [Fact]
    public void TrySet_makes_the_keys_round_a_field()
    {
        Assert.True(FieldText.TrySet(Site, "emitters[0].antenna.gain", "3 dBd", out string? edited, out _));
        Assert.Equal("3 dBd", FieldText.ValueOf(edited, "emitters[0].antenna.gain"));
        Assert.Contains("# the deaf one", edited, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("emitters:\n  - name: a\n", "emitters[1].name", "b", "emitters:\n  - name: a\n  - name: b\n")]
    [InlineData("site: x\n", "emitters[0].name", "b", "site: x\nemitters:\n  - name: b\n")]
    [InlineData("site: x\nemitters: []\n", "emitters[0].name", "b", "site: x\nemitters:\n  - name: b\n")]
    [InlineData("site: x\nemitters:\n", "emitters[0].antenna.gain", "3 dBd", "site: x\nemitters: [{ antenna: { gain: 3 dBd } }]\n")]
    [InlineData("r:\n  - name: a\n", "r[0].chain[0].attenuator", "3 dB", "r:\n  - name: a\n    chain:\n      - attenuator: 3 dB\n")]
    public void TrySet_behind_the_last_item_adds_one(string text, string field, string value, string becomes)
    {
        Assert.True(FieldText.TrySet(text, field, value, out string? edited, out string? problem), problem);
        Assert.Equal(becomes, edited);
    }

    [Theory]
    [InlineData("e:\n  - name: a # one\n  - name: b\n", "e[0]", "e:\n  - name: b\n")]
    [InlineData("site: x\ne:\n  - name: a\n", "e[0]", "site: x\n")]
    public void TryRemoveItem_takes_the_list_with_the_last_item(string text, string item, string becomes)
    {
        Assert.True(FieldText.TryRemoveItem(text, item, out string? edited, out string? problem), problem);
        Assert.Equal(becomes, edited);
    }

    [Theory]
    [InlineData("emitters[3].name", "x", "there is no")]
    [InlineData("receivers[0].name.first", "x", "holds something else")]
    public void TrySet_where_there_is_no_such_place_says_so(string field, string value, string says)
    {
        Assert.False(FieldText.TrySet(Site, field, value, out _, out string? problem));
        Assert.Contains(says, problem, StringComparison.Ordinal);
    }

    [Fact]
    public void TrySet_text_of_broken_form_is_refused()
    {
        Assert.False(FieldText.TrySet("a: [1\nb: 2\n", "b", "3", out _, out string? problem));
        Assert.Contains("errors of form", problem, StringComparison.Ordinal);
    }
}
