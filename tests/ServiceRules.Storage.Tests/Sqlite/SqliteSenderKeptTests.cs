using ServiceRules.Storage.Tests.Keeping;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteSenderKeptTests() : SenderKeptContract(() => new Drawer());
