using System.Collections.Immutable;

namespace ServiceRules.Application.Accounts;

/// <summary>
/// Where the keys are kept that protect what browsers keep, sealed: all instances on one database have the same. Safe to share
/// between threads.
/// </summary>
public interface ISealedKeyStore
{
    /// <summary>All of them, in the order of their names.</summary>
    ImmutableArray<SealedKey> All();

    /// <summary>Keeps one; of two under one name the first stays.</summary>
    void Add(SealedKey key);
}

/// <summary>A key, readable only with what is not in the database.</summary>
/// <param name="Name">Its name, no secret.</param>
/// <param name="Sealed">The sealed key.</param>
public sealed record SealedKey(string Name, ReadOnlyMemory<byte> Sealed);
