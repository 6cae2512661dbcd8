namespace ServiceRules.Application.Packs;

/// <summary>Which packs and sheets judge, in the transaction of a filing.</summary>
public interface IRulesWriting
{
    /// <summary>The activation that counts now; null before the first.</summary>
    RulesActivation? InForce();

    /// <summary>Keeps packs and sheets; false: they were kept already.</summary>
    bool Keep(string digest, ReadOnlyMemory<byte> book, DateTimeOffset at);

    /// <summary>Lets packs and sheets judge that are kept.</summary>
    /// <param name="activation">Which, and why; its number is given here.</param>
    RulesActivation Activate(RulesActivation activation);
}
