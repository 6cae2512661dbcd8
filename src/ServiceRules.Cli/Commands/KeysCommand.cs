using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>keys</c>: the keys that sign reports here, and those that did.</summary>
internal static class KeysCommand
{
    public static Command Of(Session session) =>
        new("keys", "Lists, follows and revokes the keys that sign reports here.")
        {
            KeysListCommand.Of(session),
            KeysRotateCommand.Of(session),
            KeysRevokeCommand.Of(session),
        };
}
