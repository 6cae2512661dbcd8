using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// Registers the members of an object in the order in which they are written. Each registration gives the slot that
/// holds the member's value when the object is built.
/// </summary>
public sealed class ObjectMembers<TObject>
    where TObject : notnull
{
    private readonly List<Member<TObject>> all = [];
    private readonly List<MemberCheck> checks = [];
    private readonly List<PresenceRule> presence = [];

    internal ObjectMembers() { }

    internal IReadOnlyList<Member<TObject>> All => all;

    internal IReadOnlyList<MemberCheck> Checks => checks;

    internal IReadOnlyList<PresenceRule> Presence => presence;

    public Slot<T> Required<T>(string name, JsonShape<T> shape, string description, Func<TObject, T> get)
        where T : notnull =>
        Add<T, T>(
            new SlotMember<TObject, T>(
                name,
                shape,
                description,
                required: true,
                (TObject owner, [NotNullWhen(true)] out T? value) =>
                {
                    value = get(owner);
                    return true;
                },
                value => value,
                absent: null,
                fallback: null
            )
        );

    public Slot<T?> Optional<T>(string name, JsonShape<T> shape, string description, Func<TObject, T?> get)
        where T : class =>
        Add<T, T?>(
            new SlotMember<TObject, T>(
                name,
                shape,
                description,
                required: false,
                (TObject owner, [NotNullWhen(true)] out T? value) =>
                {
                    value = get(owner);
                    return value is not null;
                },
                value => value,
                absent: null,
                fallback: null
            )
        );

    public Slot<T?> Optional<T>(string name, JsonShape<T> shape, string description, Func<TObject, T?> get)
        where T : struct =>
        Add<T, T?>(
            new SlotMember<TObject, T>(
                name,
                shape,
                description,
                required: false,
                (TObject owner, out T value) =>
                {
                    T? held = get(owner);
                    value = held.GetValueOrDefault();
                    return held.HasValue;
                },
                value => value,
                absent: null,
                fallback: null
            )
        );

    /// <summary>A member that may be left out and then stands for a stated value; that value is not written.</summary>
    public Slot<T> Defaulted<T>(
        string name,
        JsonShape<T> shape,
        T fallback,
        string description,
        Func<TObject, T> get
    )
        where T : notnull =>
        Add<T, T>(
            new SlotMember<TObject, T>(
                name,
                shape,
                description,
                required: false,
                (TObject owner, [NotNullWhen(true)] out T? value) =>
                {
                    value = get(owner);
                    return !EqualityComparer<T>.Default.Equals(value, fallback);
                },
                value => value,
                absent: fallback,
                () => fallback
            )
        );

    /// <summary>A list that may be left out when it is empty.</summary>
    public Slot<ImmutableArray<T>> Items<T>(
        string name,
        JsonShape<T> item,
        int max,
        string description,
        Func<TObject, ImmutableArray<T>> get
    )
        where T : notnull =>
        Add<ImmutableArray<T>, ImmutableArray<T>>(
            new SlotMember<TObject, ImmutableArray<T>>(
                name,
                new ListShape<T>(item, 0, max),
                description,
                required: false,
                (TObject owner, out ImmutableArray<T> value) =>
                {
                    value = get(owner);
                    return !value.IsDefaultOrEmpty;
                },
                value => value,
                absent: ImmutableArray<T>.Empty,
                fallback: null
            )
        );

    /// <summary>
    /// A relation between members that must hold. A breach is reported at the named member when it is present, else at
    /// the object.
    /// </summary>
    public void Check<T>(Func<MemberValues, bool> holds, Slot<T> at, string what, string accepted)
    {
        ArgumentNullException.ThrowIfNull(at);
        checks.Add(new(holds, at.Name, what, accepted));
    }

    /// <summary>Exactly one of these members stands.</summary>
    public void ExactlyOne(params MemberSlot[] members) =>
        presence.Add(PresenceRule.ExactlyOne(Names(members)));

    /// <summary>One member stands only with another beside it.</summary>
    public void Needs(MemberSlot member, MemberSlot other)
    {
        ArgumentNullException.ThrowIfNull(member);
        ArgumentNullException.ThrowIfNull(other);
        presence.Add(PresenceRule.Needs(member.Name, other.Name));
    }

    /// <summary>A member must stand where another says one of some words.</summary>
    public void NeededFor(MemberSlot marker, IEnumerable<string> words, MemberSlot member)
    {
        ArgumentNullException.ThrowIfNull(marker);
        ArgumentNullException.ThrowIfNull(member);
        presence.Add(PresenceRule.NeededFor(marker.Name, [.. words], member.Name));
    }

    /// <summary>A member may stand only where the marker says one of the words.</summary>
    public void OnlyFor(MemberSlot marker, IEnumerable<string> words, MemberSlot member)
    {
        ArgumentNullException.ThrowIfNull(marker);
        ArgumentNullException.ThrowIfNull(member);
        presence.Add(PresenceRule.OnlyFor(marker.Name, [.. words], member.Name));
    }

    private static string[] Names(MemberSlot[] members) => [.. members.Select(member => member.Name)];

    private Slot<TSlot> Add<T, TSlot>(SlotMember<TObject, T> member)
        where T : notnull
    {
        if (all.Exists(other => string.Equals(other.Name, member.Name, StringComparison.Ordinal)))
        {
            throw new InvalidOperationException($"the member `{member.Name}` is registered twice");
        }

        all.Add(member);
        return new(member.Name, all.Count - 1);
    }
}
