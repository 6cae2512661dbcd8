using System.Collections.Immutable;
using ServiceRules.Application.Waiving;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>The waivers of a store; something happens once, right after it was asked which count.</summary>
internal sealed class AskedWaivers(IWaiverReading store) : IWaiverReading
{
    public Action? OnceAsked { get; set; }

    public WaiverMark Mark(string site) => store.Mark(site);

    public ImmutableArray<KeptWaiver> Of(string site)
    {
        var now = store.Of(site);
        var once = OnceAsked;
        OnceAsked = null;
        once?.Invoke();
        return now;
    }

    public ImmutableArray<WaiverRow> Rows() => store.Rows();
}
