using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>Secrets and identities, drawn.</summary>
public static class DrawnSecret
{
    /// <summary>What keys begin with, so that one that got into a text is found there.</summary>
    public const string KeyStart = "srk-";

    // 256 bits: nothing is gained by making the hash dear.
    private const int SecretBytes = 32;
    private const int IdBytes = 8;

    // Without those that are taken for one another.
    private const string PasswordLetters = "abcdefghjkmnpqrstuvwxyz23456789";
    private const int PasswordLength = 20;

    public static string Id() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdBytes));

    public static string Secret() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes));

    /// <summary>About 99 bits, for somebody to type once.</summary>
    public static string Password() => RandomNumberGenerator.GetString(PasswordLetters, PasswordLength);

    public static ContentHash Hash(string secret) => ContentHash.Of(Encoding.UTF8.GetBytes(secret));
}
