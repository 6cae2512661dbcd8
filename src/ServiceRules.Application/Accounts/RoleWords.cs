using System.Collections.Immutable;

namespace ServiceRules.Application.Accounts;

/// <summary>Roles as they are written: words with a space between them.</summary>
public static class RoleWords
{
    private static readonly ImmutableArray<(Roles Role, string Word)> Known =
    [
        (Roles.Technician, "technician"),
        (Roles.Lead, "lead"),
        (Roles.Officer, "officer"),
        (Roles.Administrator, "administrator"),
    ];

    /// <summary>Every word, in the order in which they are written.</summary>
    public static ImmutableArray<string> All { get; } = [.. Known.Select(one => one.Word)];

    public static IEnumerable<string> Words(Roles roles) =>
        Known.Where(one => roles.HasFlag(one.Role)).Select(one => one.Word);

    public static string Text(Roles roles) => string.Join(' ', Words(roles));

    /// <summary>None when there is no word, or one that is not known.</summary>
    public static Roles Read(IEnumerable<string?> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var read = Roles.None;
        foreach (var word in words)
        {
            var role = Known.FirstOrDefault(one => one.Word == word).Role;
            if (role is Roles.None)
            {
                return Roles.None;
            }

            read |= role;
        }

        return read;
    }

    /// <inheritdoc cref="Read(IEnumerable{string?})"/>
    public static Roles Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Read(text.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }
}
