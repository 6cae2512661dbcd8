using System.Collections.Immutable;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>Packs and sheets that are kept, and which of them judge.</summary>
internal sealed class MemoryPacks : IRulesStore, IRulesWriting
{
    private readonly List<RulesActivation> _activations = [];
    private readonly Dictionary<string, (byte[] Book, DateTimeOffset At)> _books = new(
        StringComparer.Ordinal
    );

    public RulesActivation? InForce() => _activations.LastOrDefault();

    public ImmutableArray<RulesActivation> Activations(int most) =>
        [.. Enumerable.Reverse(_activations).Take(most)];

    public ImmutableArray<StoredRules> Stored(int most) =>
        [.. _books.Select(one => new StoredRules(one.Key, one.Value.At)).Take(most)];

    public ReadOnlyMemory<byte>? Book(string digest) =>
        _books.TryGetValue(digest, out var kept) ? kept.Book : default(ReadOnlyMemory<byte>?);

    public bool Keep(string digest, ReadOnlyMemory<byte> book, DateTimeOffset at) =>
        _books.TryAdd(digest, (book.ToArray(), at));

    public RulesActivation Begin(string digest, ReadOnlyMemory<byte> book, DateTimeOffset at, string reason)
    {
        if (_activations.Count == 0)
        {
            _ = _books.TryAdd(digest, (book.ToArray(), at));
            _activations.Add(new(1, digest, at, reason));
        }

        return _activations[^1];
    }

    public RulesActivation Activate(RulesActivation activation)
    {
        var next = activation with { Number = _activations.Count + 1 };
        _activations.Add(next);
        return next;
    }
}
