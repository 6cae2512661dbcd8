using System.Collections.Immutable;
using ServiceRules.Application.Packs;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>The rules of a store; something happens right after it was asked which are in force.</summary>
internal sealed class AskedRules(IRulesStore store) : IRulesStore
{
    public Action? OnceAsked { get; set; }

    public Action? EachTimeAsked { get; init; }

    public RulesActivation? InForce()
    {
        var now = store.InForce();
        var once = OnceAsked;
        OnceAsked = null;
        once?.Invoke();
        EachTimeAsked?.Invoke();
        return now;
    }

    public ImmutableArray<RulesActivation> Activations(int most) => store.Activations(most);

    public ImmutableArray<StoredRules> Stored(int most) => store.Stored(most);

    public ReadOnlyMemory<byte>? Book(string digest) => store.Book(digest);

    public RulesActivation Begin(
        string digest,
        ReadOnlyMemory<byte> book,
        DateTimeOffset at,
        string reason
    ) => store.Begin(digest, book, at, reason);
}
