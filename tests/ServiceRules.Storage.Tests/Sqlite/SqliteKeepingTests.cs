using ServiceRules.Storage.Tests.Keeping;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteKeepingTests() : KeepingContract(() => new Drawer());
