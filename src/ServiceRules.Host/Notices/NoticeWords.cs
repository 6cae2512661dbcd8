using System.Collections.Immutable;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>What the states of notices are called.</summary>
internal static class NoticeWords
{
    public const string GivenUp = "given-up";

    private static readonly ImmutableArray<(NoticeState State, string Word)> Words =
    [
        (NoticeState.GivenUp, GivenUp),
        (NoticeState.Waiting, "waiting"),
        (NoticeState.Delivered, "delivered"),
        (NoticeState.NothingLeft, "nothing-left"),
    ];

    public static ImmutableArray<string> All { get; } = [.. Words.Select(one => one.Word)];

    public static string Of(NoticeState state) => Words.Single(one => one.State == state).Word;

    public static NoticeState? Read(string word) =>
        Words.Where(one => one.Word == word).Select(one => (NoticeState?)one.State).SingleOrDefault();
}
