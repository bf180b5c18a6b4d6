using Microsoft.AspNetCore.Components;

namespace Spurless.Pages.Shell;

/// <summary>
/// The addresses that a page wrote itself and has not heard of again. The browser tells each of them back a moment later, when the page may
/// be further on: taken for a wish of the user's, it would undo what was done meanwhile.
/// </summary>
internal sealed class OwnSteps
{
    private readonly List<string> _told = [];

    // The one heard last, whoever wrote it: one change of the address sets the page's parameters more than once.
    private string? _last;

    /// <summary>Writes an address, in place of the present one.</summary>
    public void Take(NavigationManager navigation, string address)
    {
        string to = Exact(navigation.ToAbsoluteUri(address));
        if (to == Exact(new Uri(navigation.Uri)) && _told.Count == 0)
        {
            return; // the browser would tell nothing back
        }

        _told.Add(to);
        navigation.NavigateTo(address, replace: true);
    }

    /// <summary>
    /// Whether the present address is one of these, or still the one heard last: then the page has answered it. It and those before it
    /// are done with.
    /// </summary>
    public bool Heard(NavigationManager navigation)
    {
        string at = Exact(new Uri(navigation.Uri));
        int told = _told.LastIndexOf(at);
        _told.RemoveRange(0, told + 1);
        bool answered = told >= 0 || at == _last;
        _last = at;
        return answered;
    }

    private static string Exact(Uri address) => address.GetComponents(UriComponents.HttpRequestUrl, UriFormat.UriEscaped);
}
