using Spurless.Pages.Shell;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Tests.Shell;

public class PageKeyTests
{
    private readonly string _secret = FolderKey.Fresh();
    private readonly SetClock _clock = new();

    [Fact]
    public void Opens_the_secret_as_often_as_it_comes_and_nothing_near_it()
    {
        PageKey key = new(_secret, _clock);
        Assert.True(key.Opens(_secret));
        Assert.True(key.Opens(_secret));
        foreach (
            string near in (string[])
                ["", _secret[..^1], _secret + "0", _secret.ToUpperInvariant() + "x", new string('0', 32), "\0", "\u00e9"])
        {
            Assert.False(key.Opens(near), near);
        }
    }

    [Fact]
    public void Opens_a_ticket_once()
    {
        PageKey key = new(_secret, _clock);
        string ticket = key.Ticket();
        Assert.NotEqual(_secret, ticket);
        Assert.True(key.Opens(ticket));
        Assert.False(key.Opens(ticket));
        Assert.True(key.Opens(_secret));
    }

    [Fact]
    public void Opens_no_ticket_that_came_late_or_was_followed_by_another()
    {
        PageKey key = new(_secret, _clock);
        string late = key.Ticket();
        _clock.Now += TimeSpan.FromMinutes(3);
        Assert.False(key.Opens(late));
        string first = key.Ticket();
        string second = key.Ticket();
        Assert.False(key.Opens(first));
        Assert.True(key.Opens(second));
    }

    private sealed class SetClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = DateTimeOffset.UnixEpoch;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
