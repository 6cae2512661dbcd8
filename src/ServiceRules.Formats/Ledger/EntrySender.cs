namespace ServiceRules.Formats.Ledger;

/// <summary>Who sent what an entry is about to a service that knew who sends.</summary>
/// <param name="Name">The account that had signed in, <c>account:ID</c>, or the key that was shown, <c>key:ID</c>.</param>
/// <param name="Person">Pseudonym of the person of the register whom that stands for; null: it stands for nobody.</param>
/// <param name="Place">Where the record names that person; null: it does not, or in another part than these places lead to.</param>
public sealed record EntrySender(string Name, string? Person, string? Place)
{
    private const string KeyStart = "key:";

    /// <summary>Whether a program sent it with a key, and nobody signed in.</summary>
    public bool IsKey => Name.StartsWith(KeyStart, StringComparison.Ordinal);
}
