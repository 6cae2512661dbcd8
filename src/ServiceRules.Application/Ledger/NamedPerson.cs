using System.Security.Cryptography;
using System.Text;

namespace ServiceRules.Application.Ledger;

/// <summary>A person and the pseudonym that entries name them by.</summary>
/// <param name="Pseudonym">As it stands in entries.</param>
/// <param name="Person">Who it is.</param>
/// <param name="Salt">What binds the one to the other; null in ledgers from before names were bound.</param>
public sealed record NamedPerson(string Pseudonym, string Person, ReadOnlyMemory<byte>? Salt)
{
    public const int SaltBytes = 32;

    private const int PseudonymBytes = 8;

    // A pseudonym is short: finding a salt that gives it to another name is made dear.
    private const int Rounds = 100_000;

    /// <summary>Whether this is the name that the pseudonym was made for; null when nothing says so.</summary>
    public bool? IsBound => Salt is { } salt ? Pseudonym == Of(Person, salt.Span) : null;

    /// <summary>Draws a pseudonym that nobody can compute from the name, before or after the salt is gone.</summary>
    public static NamedPerson Draw(string person)
    {
        var salt = RandomNumberGenerator.GetBytes(SaltBytes);
        return new(Of(person, salt), person, salt);
    }

    /// <summary>Why nobody can be named so; null when somebody can, or when nobody is named.</summary>
    public static FilingRefusal? Fault(string? person) =>
        person is null || PlainText.Is(person)
            ? null
            : new(
                "the name of a person holds a character that no text can hold",
                "a name without control characters and half characters"
            )
            {
                IsUnfit = true,
            };

    private static string Of(string person, ReadOnlySpan<byte> salt) =>
        "p-"
        + Convert.ToHexStringLower(
            Rfc2898DeriveBytes.Pbkdf2(
                Encoding.UTF8.GetBytes(person),
                salt,
                Rounds,
                HashAlgorithmName.SHA256,
                PseudonymBytes
            )
        );
}
