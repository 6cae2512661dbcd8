using ServiceRules.Storage.Tests.Sites;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteOutdatedTests() : OutdatedContract(() => new Drawer());
