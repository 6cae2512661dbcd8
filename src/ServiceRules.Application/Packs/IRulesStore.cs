using System.Collections.Immutable;

namespace ServiceRules.Application.Packs;

/// <summary>Where packs and sheets are kept that judge here, did, or may. Nothing of it is ever removed. Safe to share between threads.</summary>
public interface IRulesStore
{
    /// <summary>The activation that counts now; null before the first.</summary>
    RulesActivation? InForce();

    /// <summary>Activations, the last one first.</summary>
    ImmutableArray<RulesActivation> Activations(int most);

    /// <summary>What is kept, the last one first.</summary>
    ImmutableArray<StoredRules> Stored(int most);

    /// <summary>Packs and sheets in their canonical spelling; null: none of this digest are kept.</summary>
    ReadOnlyMemory<byte>? Book(string digest);

    /// <summary>Keeps packs and sheets and lets them judge, unless some do already.</summary>
    /// <returns>The activation that counts, whichever it is.</returns>
    RulesActivation Begin(string digest, ReadOnlyMemory<byte> book, DateTimeOffset at, string reason);
}
