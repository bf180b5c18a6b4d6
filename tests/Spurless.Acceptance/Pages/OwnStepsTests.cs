using Microsoft.AspNetCore.Components;
using Spurless.Pages.Shell;

namespace Spurless.Acceptance.Pages;

/// <summary>A page tells its own addresses, which come back late, from a wish of the user's.</summary>
public class OwnStepsTests
{
    [Fact]
    public void Step_that_comes_back_late_is_the_pages_own_however_often_it_is_set()
    {
        SlowBrowser browser = new();
        OwnSteps steps = new();
        steps.Take(browser, "study/a.site.yaml?finding=1");
        steps.Take(browser, "study/a.site.yaml?finding=1&set=pad%2011");
        browser.Tell();
        Assert.True(steps.Heard(browser));
        browser.Tell();
        Assert.True(steps.Heard(browser));

        // The page may be further on by now than its address says, a slider on its way: set once more, the address asks for nothing new.
        Assert.True(steps.Heard(browser));
        browser.GoTo("study/a.site.yaml?finding=1");
        Assert.False(steps.Heard(browser));
    }

    [Fact]
    public void Address_of_the_users_is_answered_once()
    {
        SlowBrowser browser = new();
        OwnSteps steps = new();
        browser.GoTo("study/a.site.yaml?finding=2");
        Assert.False(steps.Heard(browser));
        Assert.True(steps.Heard(browser));
    }

    [Fact]
    public void Address_of_the_users_is_not_the_pages_own()
    {
        SlowBrowser browser = new();
        OwnSteps steps = new();
        steps.Take(browser, "study/a.site.yaml?finding=1");
        browser.GoTo("study/a.site.yaml?finding=2");
        Assert.False(steps.Heard(browser));
    }

    [Fact]
    public void Step_to_the_present_address_is_not_awaited()
    {
        SlowBrowser browser = new();
        OwnSteps steps = new();
        steps.Take(browser, "");
        Assert.False(steps.Heard(browser));
        Assert.Equal(0, browser.Waiting);
    }

    /// <summary>Tells an address back only when asked, as a browser behind a slow connection does.</summary>
    private sealed class SlowBrowser : NavigationManager
    {
        private readonly Queue<string> _waiting = new();

        public SlowBrowser() => Initialize("http://127.0.0.1/", "http://127.0.0.1/");

        public int Waiting => _waiting.Count;

        public void Tell() => GoTo(_waiting.Dequeue());

        public void GoTo(string address) => Uri = ToAbsoluteUri(address).AbsoluteUri;

        protected override void NavigateToCore(string uri, NavigationOptions options) => _waiting.Enqueue(uri);
    }
}
